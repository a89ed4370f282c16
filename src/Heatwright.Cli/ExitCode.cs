// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Cli;

/// <summary>How the program ends. Documented in docs/guide/command-line.md; scripts rely on the numbers.</summary>
internal static class ExitCode
{
    /// <summary>The question was answered.</summary>
    public const int Done = 0;

    /// <summary>Answered, and the answer is no: nothing feasible reaches the aim, or a run left the range of a formula.</summary>
    public const int Outside = 1;

    /// <summary>The command line or a file cannot be used; the message says what to mend.</summary>
    public const int BadInput = 2;

    /// <summary>A fault of the program itself.</summary>
    public const int Internal = 3;
}
