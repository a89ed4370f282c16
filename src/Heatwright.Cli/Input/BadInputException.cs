// SPDX-License-Identifier: Apache-2.0
using Heatwright.Shop.Files;

namespace Heatwright.Cli.Input;

/// <summary>What was given cannot be used. The message says what, where and how to mend it.</summary>
internal sealed class BadInputException : Exception
{
    public BadInputException(string message, string mend)
        : base(message + Environment.NewLine + "Mend: " + mend + ".")
    {
    }

    public BadInputException(IReadOnlyList<Problem> problems)
        : base(
            $"{(problems.Count == 1 ? "one problem" : problems.Count + " problems")} in the files:" + Environment.NewLine
            + string.Join(Environment.NewLine, problems))
    {
    }
}
