// SPDX-License-Identifier: Apache-2.0
using System.Text;

namespace Heatwright.Shop.Files;

/// <summary>One thing that is wrong with a file, where it stands, and how to mend it.</summary>
/// <param name="Code">Stable code in plain words, one of <see cref="ProblemCode"/>.</param>
/// <param name="File">File as named by the caller.</param>
/// <param name="Line">Line, from 1; 0 when the whole file is meant.</param>
/// <param name="Column">Column, from 1; 0 when the whole file is meant.</param>
/// <param name="Field">Path of the field, e.g. <c>charge.scrap.heavy</c>; empty for the whole file.</param>
/// <param name="Value">Value as written, shortened to 60 characters; null when nothing was written.</param>
/// <param name="Message">What is wrong, one sentence.</param>
/// <param name="Limit">What is allowed; null when there is no limit to name.</param>
/// <param name="Mend">What to write or do.</param>
public sealed record Problem(
    string Code,
    string File,
    int Line,
    int Column,
    string Field,
    string? Value,
    string Message,
    string? Limit,
    string Mend)
{
    /// <summary>One line for a terminal: place, field, value, what is wrong, limit, mend and code.</summary>
    public override string ToString()
    {
        var text = new StringBuilder(File);
        if (Line > 0)
        {
            text.Append(':').Append(Line).Append(':').Append(Column);
        }

        text.Append(": ");
        if (Field.Length > 0)
        {
            text.Append(Field).Append(": ");
        }

        text.Append(Message);
        if (Limit is not null)
        {
            text.Append(" Allowed: ").Append(Limit).Append('.');
        }

        return text.Append(" Mend: ").Append(Mend).Append(". [").Append(Code).Append(']').ToString();
    }
}

/// <summary>What loading gave: the value, or the problems that forbid it. Never both.</summary>
/// <typeparam name="T">What the file describes.</typeparam>
public sealed class Loaded<T>
    where T : class
{
    internal Loaded(T? value, IReadOnlyList<Problem> problems)
    {
        Value = problems.Count == 0 ? value : null;
        Problems = problems;
    }

    /// <summary>The value, or null when there are problems.</summary>
    public T? Value { get; }

    /// <summary>All problems found, in order of line.</summary>
    public IReadOnlyList<Problem> Problems { get; }

    /// <summary>The value.</summary>
    /// <exception cref="ShopFileException">There are problems.</exception>
    public T ValueOrThrow() => Value ?? throw new ShopFileException(Problems);
}

/// <summary>A file of the shop cannot be used. Carries every problem found.</summary>
public sealed class ShopFileException : Exception
{
    /// <summary>Creates the exception from its problems.</summary>
    public ShopFileException(IReadOnlyList<Problem> problems)
        : base(string.Join(Environment.NewLine, problems)) => Problems = problems;

    /// <summary>Every problem found.</summary>
    public IReadOnlyList<Problem> Problems { get; }
}
