// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Learning.Validation;

/// <summary>Measured data cannot be read. The message names file, line, column, value, limit and what to do.</summary>
public sealed class ValidationDataException : Exception
{
    /// <summary>Creates the exception.</summary>
    public ValidationDataException()
    {
    }

    /// <summary>Creates the exception with its message.</summary>
    public ValidationDataException(string message)
        : base(message)
    {
    }

    /// <summary>Creates the exception with its message and cause.</summary>
    public ValidationDataException(string message, Exception innerException)
        : base(message, innerException)
    {
    }
}
