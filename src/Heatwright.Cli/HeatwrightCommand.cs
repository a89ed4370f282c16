// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using System.CommandLine.Parsing;
using Heatwright.Chemistry;
using Heatwright.Cli.Commands;
using Heatwright.Cli.Commands.Journal;
using Heatwright.Cli.Commands.Record;
using Heatwright.Cli.Input;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Files;
using Heatwright.Journal.Store;

namespace Heatwright.Cli;

/// <summary>The <c>heatwright</c> command: parses, runs one question, and turns every failure into a message and an exit code.</summary>
internal static class HeatwrightCommand
{
    private static readonly string[] RootExamples =
    [
        "heatwright plan examples/heats/ordinary.yaml",
        "heatwright blow examples/heats/ordinary.yaml",
        "heatwright correct examples/heats/ordinary.yaml --at 82% --temperature 1550 --carbon 0.48",
        "heatwright validate examples/plant.yaml examples/heats/*.yaml",
    ];

    public static int Run(string[] args)
    {
        ParseResult parsed = Build().Parse(args);
        if (parsed.Errors.Count > 0)
        {
            foreach (string message in parsed.Errors.Select(e => e.Message).Distinct(StringComparer.Ordinal))
            {
                Console.Error.WriteLine("heatwright: " + message);
            }

            string first = parsed.CommandResult.Command is RootCommand root
                ? $"begin with one of {string.Join(", ", root.Subcommands.Select(c => c.Name))}; "
                : "";
            Console.Error.WriteLine($"Mend: {first}see 'heatwright {Path(parsed)}--help'.");
            return ExitCode.BadInput;
        }

        try
        {
            return parsed.Invoke(new InvocationConfiguration { EnableDefaultExceptionHandler = false });
        }
        catch (BadInputException e)
        {
            Console.Error.WriteLine("heatwright: " + e.Message);
            return ExitCode.BadInput;
        }
        catch (FileRefusedException e)
        {
            Console.Error.WriteLine("heatwright: " + e.Message);
            return ExitCode.BadInput;
        }
        catch (EntryFormatException e)
        {
            Console.Error.WriteLine("heatwright: an entry of the journal cannot be read. " + e.Message);
            Console.Error.WriteLine("Mend: 'heatwright journal verify' names it.");
            return ExitCode.Outside;
        }
        catch (JournalException e)
        {
            Console.Error.WriteLine("heatwright: " + e.Message);
            return e.Problem == JournalProblem.Damaged ? ExitCode.Outside : ExitCode.BadInput;
        }
        catch (ChemistryRangeException e)
        {
            Console.Error.WriteLine("heatwright: the run left the range of a formula. " + e.Message);
            return ExitCode.Outside;
        }
        catch (ArgumentOutOfRangeException e)
        {
            // The model's own limits: the message names field, value, limit and unit.
            Console.Error.WriteLine("heatwright: the heat lies outside what the model takes. " + FirstLine(e.Message));
            Console.Error.WriteLine("Mend: change the value named, or the file that it comes from.");
            return ExitCode.BadInput;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Console.Error.WriteLine("heatwright: " + FirstLine(e.Message));
            Console.Error.WriteLine("Mend: check that the folder exists and may be written.");
            return ExitCode.BadInput;
        }
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            Console.Error.WriteLine("heatwright: this is a fault of the program. Please report it with the files that led to it.");
            Console.Error.WriteLine(e.ToString());
            return ExitCode.Internal;
        }
    }

    private static RootCommand Build()
    {
        var root = new RootCommand(
            "A workbench for an oxygen-converter steel shop. It advises; the crew, the plant's procedures and local codes decide.");
        Add(root, PlanCommand.Create(), PlanCommand.Examples);
        Add(root, BlowCommand.Create(), BlowCommand.Examples);
        Add(root, CorrectCommand.Create(), CorrectCommand.Examples);
        Add(root, ExplainCommand.Create(), ExplainCommand.Examples);
        Add(root, ValidateCommand.Create(), ValidateCommand.Examples);
        Add(root, CheckModelCommand.Create(), CheckModelCommand.Examples);
        Add(root, DemoCommand.Create(), DemoCommand.Examples);
        Add(root, RecordCommand.Create(), RecordCommand.Examples);
        Add(root, JournalCommand.Create(), JournalCommand.Examples);
        WithExamples(root, RootExamples);
        return root;
    }

    private static void Add(RootCommand root, Command command, IReadOnlyList<string> examples)
    {
        root.Subcommands.Add(command);
        command.Options.Add(new HelpOption());
        WithExamples(command, examples);
        foreach ((Command member, IReadOnlyList<string> own) in command is GroupCommand group ? group.Members : [])
        {
            member.Options.Add(new HelpOption());
            WithExamples(member, own);
        }
    }

    private static void WithExamples(Command command, IReadOnlyList<string> examples)
    {
        HelpOption? help = command.Options.OfType<HelpOption>().FirstOrDefault();
        if (help is not null)
        {
            help.Action = new HelpWithExamples((HelpAction)help.Action!, examples);
        }
    }

    private static string Path(ParseResult parsed)
    {
        string path = "";
        for (SymbolResult? at = parsed.CommandResult; at is CommandResult { Command: not RootCommand } command; at = at.Parent)
        {
            path = command.Command.Name + " " + path;
        }

        return path;
    }

    private static string FirstLine(string text) => text.Split('\n', 2)[0].TrimEnd();

    private sealed class HelpWithExamples(HelpAction inner, IReadOnlyList<string> examples) : SynchronousCommandLineAction
    {
        // "blow --help" needs no heat.
        public override bool ClearsParseErrors => true;

        public override int Invoke(ParseResult parseResult)
        {
            int code = inner.Invoke(parseResult);
            TextWriter output = parseResult.InvocationConfiguration.Output;
            output.WriteLine("Examples:");
            foreach (string example in examples)
            {
                output.WriteLine("  " + example);
            }

            output.WriteLine();
            output.WriteLine("Exit codes: 0 answered; 1 infeasible or outside a formula's range; 2 bad input; 3 a fault of the program.");
            return code;
        }
    }
}
