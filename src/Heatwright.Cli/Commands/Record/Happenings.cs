// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;
using Heatwright.Cli.Input;
using Heatwright.Journal.Entries;
using Heatwright.Shop.Units;

namespace Heatwright.Cli.Commands.Record;

/// <summary>What went on: operations, delays, renewed parts, the end.</summary>
internal static class Happenings
{
    public static (Command, IReadOnlyList<string>) Mark()
    {
        var record = new RecordOptions();
        Argument<HeatOperation> operation = Choice.Argument<HeatOperation>("OPERATION", "Which.");
        Argument<OperationState> state = Choice.Argument<OperationState>("STATE", "Into which state it went.");
        Option<int> index = Facts.Index();
        var unit = new Option<string?>("--unit") { Description = "Converter.", HelpName = "NAME" };
        Option<double?> oxygen = Amount.Option("--oxygen", Kinds.GasVolume, "Nm3", 0, 100_000, "\"8240 Nm3\"", "Oxygen blown in this blow or reblow when it ended.");
        var command = new Command("mark", "An operation began, was held, ended or was broken off. A reblow is 'reblow' with --index.") { record.Heat, operation, state, index, unit, oxygen };
        record.AddTo(command);
        command.SetAction(parsed => record.Write(parsed, new OperationBody(
            parsed.GetValue(operation), parsed.GetValue(state), parsed.GetValue(index), parsed.GetValue(unit), parsed.GetValue(oxygen))));
        return (command, ["heatwright record mark L-1001 blow running --unit North", "heatwright record mark L-1001 blow complete --oxygen \"8240 Nm3\""]);
    }

    public static (Command, IReadOnlyList<string>) Delay()
    {
        var record = new RecordOptions();
        var code = new Argument<string>("CODE") { Description = "Reason code of the works, for example wait-ladle." };
        var from = new Option<string>("--from") { Description = "Since when, as --time.", HelpName = "TIME", Required = true };
        var until = new Option<string?>("--until") { Description = "Until when; leave it out while it lasts.", HelpName = "TIME" };
        var unit = new Option<string?>("--unit") { Description = "Unit that waited.", HelpName = "NAME" };
        var text = new Option<string?>("--text") { Description = "Words.", HelpName = "WORDS" };
        var command = new Command("delay", "Time lost.") { record.Heat, code, from, until, unit, text };
        record.AddTo(command);
        command.SetAction(parsed =>
        {
            DateTimeOffset began = Times.Parse(parsed.GetValue(from), "--from");
            DateTimeOffset? ended = parsed.GetValue(until) is { } end ? Times.Parse(end, "--until") : null;
            return ended < began
                ? throw new BadInputException("--until lies before --from.", "check both times")
                : record.Write(parsed, new DelayBody(parsed.GetValue(code)!, began, ended, parsed.GetValue(unit), parsed.GetValue(text)));
        });
        return (command, ["heatwright record delay L-1001 wait-ladle --from \"2026-11-25 08:12\" --until \"2026-11-25 08:20\" --unit North"]);
    }

    public static (Command, IReadOnlyList<string>) Renew()
    {
        var record = new RecordOptions();
        var unit = new Argument<string>("UNIT") { Description = "Converter." };
        Argument<WearPart> part = Choice.Argument<WearPart>("PART", "Part.");
        var mended = new Option<bool>("--mended") { Description = "It was mended, not renewed: its age goes on." };
        Option<double?> age = Amount.Option("--age", Kinds.Heats, "heats", 0, 50_000, "\"3120 heats\"", "Age that it had by the works' own count.");
        var serial = new Option<string?>("--serial") { Description = "Name of the new one.", HelpName = "NAME" };
        var command = new Command("renew", "A lining, lance, taphole or the bottom elements were renewed or mended.") { unit, part, mended, age, serial };
        record.AddTo(command);
        command.SetAction(parsed => record.Write(parsed, "", (_, _) => new EquipmentBody(
            parsed.GetValue(unit)!, parsed.GetValue(part), !parsed.GetValue(mended), parsed.GetValue(age), parsed.GetValue(serial))));
        return (command, ["heatwright record renew North lance --age \"212 heats\""]);
    }

    public static (Command, IReadOnlyList<string>) Close()
    {
        var record = new RecordOptions();
        Option<double?> steel = Amount.Option("--steel", Kinds.Mass, "t", 0, 1000, "\"160.4 t\"", "Steel in the ladle.");
        Option<double?> slag = Amount.Option("--slag", Kinds.Mass, "t", 0, 200, "\"14 t\"", "Slag poured off.");
        Option<double?> oxygen = Amount.Option("--oxygen", Kinds.GasVolume, "Nm3", 0, 100_000, "\"8300 Nm3\"", "Oxygen of all blows.");
        var outcome = new Option<string?>("--outcome") { Description = "cast, returned, downgraded or the like.", HelpName = "WORD" };
        var command = new Command("close", "The heat is finished.") { record.Heat, steel, slag, oxygen, outcome };
        record.AddTo(command);
        command.SetAction(parsed => record.Write(parsed, new EndBody(parsed.GetValue(steel), parsed.GetValue(slag), parsed.GetValue(oxygen), parsed.GetValue(outcome))));
        return (command, ["heatwright record close L-1001 --steel \"160.4 t\" --oxygen \"8300 Nm3\" --outcome cast"]);
    }
}
