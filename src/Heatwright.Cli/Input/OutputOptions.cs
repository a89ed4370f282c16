// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;
using Heatwright.Cli.Output;

namespace Heatwright.Cli.Input;

/// <summary>How an answer is written.</summary>
internal sealed class OutputOptions
{
    private readonly Option<bool> _json = new("--json") { Description = "Write JSON to standard output instead of tables." };
    private readonly Option<bool> _csv = new("--csv") { Description = "Write the main table as CSV (RFC 4180) instead of tables." };
    private readonly Option<bool> _noColour = new("--no-colour") { Description = "No colour on the terminal (also: NO_COLOR set). Piped output never has any." };
    private readonly Option<bool> _ascii = new("--ascii") { Description = "Only ASCII characters in tables." };

    public void AddTo(Command command)
    {
        command.Options.Add(_json);
        command.Options.Add(_csv);
        command.Options.Add(_noColour);
        command.Options.Add(_ascii);
        command.Validators.Add(result =>
        {
            if (result.GetValue(_json) && result.GetValue(_csv))
            {
                result.AddError("--json and --csv are both given. Mend: write one of them.");
            }
        });
    }

    /// <summary>Writes the answer to standard output.</summary>
    /// <returns>The exit code of the answer.</returns>
    public int Write(ParseResult parsed, Answer answer)
    {
        if (parsed.GetValue(_json))
        {
            JsonText.Write(Console.OpenStandardOutput(), answer.Json);
        }
        else if (parsed.GetValue(_csv))
        {
            Console.Out.Write(CsvText.Of(answer.Csv));
        }
        else
        {
            SheetPrinter.Print(answer.Sheet, parsed.GetValue(_noColour), parsed.GetValue(_ascii));
        }

        return answer.ExitCode;
    }
}
