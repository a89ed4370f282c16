// SPDX-License-Identifier: Apache-2.0
using System.CommandLine;
using System.Globalization;
using Heatwright.Chemistry;
using Heatwright.Cli.Input;
using Heatwright.Journal.Entries;
using Heatwright.Shop.Units;

namespace Heatwright.Cli.Commands.Record;

/// <summary>Facts by scale, probe and laboratory.</summary>
internal static class Facts
{
    private const string MassExample = "\"6.7 t\"";

    public static (Command, IReadOnlyList<string>) Weigh()
    {
        var record = new RecordOptions();
        Argument<ChargeKind> what = Choice.Argument<ChargeKind>("WHAT", "What was weighed.");
        Argument<double> mass = Amount.Argument("MASS", Kinds.Mass, "t", 0, 1000, MassExample, "Net mass.");
        var material = new Option<string?>("--material") { Description = "Scrap class; needed for scrap.", HelpName = "CLASS" };
        Option<double?> temperature = Amount.Option("--temperature", Kinds.Temperature, "°C", -50, 2000, "\"1350 °C\"", "Temperature when charged.");
        Option<double?> slag = Amount.Option("--slag", Kinds.Mass, "t", 0, 50, "\"0.4 t\"", "Ladle slag poured with hot metal.");
        var lot = new Option<string?>("--lot") { Description = "Delivered lot, or hot-metal ladle.", HelpName = "NAME" };
        var scale = new Option<string?>("--scale") { Description = "Scale that read it.", HelpName = "NAME" };
        var command = new Command("weigh", "What a scale read: hot metal, scrap of one class, or slag kept from the heat before.") { record.Heat, what, mass, material, temperature, slag, lot, scale };
        record.AddTo(command);
        command.SetAction(parsed =>
        {
            ChargeKind kind = parsed.GetValue(what);
            string? name = parsed.GetValue(material);
            if (kind != ChargeKind.Scrap && name is not null)
            {
                throw new BadInputException($"--material: {Choice.Word(kind)} has no class.", "leave --material out; a ladle or delivery is --lot");
            }

            if (kind == ChargeKind.Scrap && string.IsNullOrWhiteSpace(name))
            {
                throw new BadInputException("--material: scrap without its class.", "write --material heavy, or another class of the materials file");
            }

            return record.Write(parsed, new ChargeBody(
                kind, parsed.GetValue(mass), kind == ChargeKind.Scrap ? name : null, parsed.GetValue(temperature), parsed.GetValue(slag), parsed.GetValue(lot), parsed.GetValue(scale)));
        });
        return (command, ["heatwright record weigh L-1001 hot-metal \"142.7 t\" --temperature \"1350 °C\"", "heatwright record weigh L-1001 scrap \"6.7 t\" --material heavy"]);
    }

    public static (Command, IReadOnlyList<string>) Add()
    {
        var record = new RecordOptions();
        var material = new Argument<string>("MATERIAL") { Description = "Material." };
        Argument<double> mass = Amount.Argument("MASS", Kinds.Mass, "t", 0, 200, MassExample, "Mass as weighed.");
        Option<double?> oxygen = Amount.Option("--oxygen", Kinds.GasVolume, "Nm3", 0, 100_000, "\"4100 Nm3\"", "Oxygen blown when it fell.");
        var ladle = new Option<bool>("--ladle") { Description = "It went into the ladle, not into the vessel." };
        var lot = new Option<string?>("--lot") { Description = "Lot.", HelpName = "NAME" };
        var command = new Command("add", "An addition that fell.") { record.Heat, material, mass, oxygen, ladle, lot };
        record.AddTo(command);
        command.SetAction(parsed => record.Write(parsed, new AdditionBody(
            parsed.GetValue(material)!,
            parsed.GetValue(mass),
            parsed.GetValue(ladle) ? AdditionPlace.Ladle : AdditionPlace.Converter,
            parsed.GetValue(oxygen),
            parsed.GetValue(lot))));
        return (command, ["heatwright record add L-1001 lime \"3.2 t\" --oxygen 0", "heatwright record add L-1001 ore \"400 kg\" --oxygen \"6900 Nm3\""]);
    }

    public static (Command, IReadOnlyList<string>) Measure()
    {
        var record = new RecordOptions();
        Argument<HeatPoint> point = Choice.Argument<HeatPoint>("POINT", "Where in the heat.");
        Option<double?> temperature = Amount.Option("--temperature", Kinds.Temperature, "°C", 1000, 2000, "\"1550 °C\"", "Temperature.");
        Option<double?> carbon = Amount.Option("--carbon", Kinds.MassPercent, "%", 0, 6, "\"0.48 %\"", "Carbon, mass %.");
        Option<double?> ppm = Amount.Option("--oxygen-ppm", Kinds.MassPercent, "ppm", 0, 3000, "\"520 ppm\"", "Dissolved oxygen, mass ppm.");
        Option<double?> level = Amount.Option("--bath-level", Kinds.Length, "m", 0, 20, "\"5.2 m\"", "Bath under the vessel's datum.");
        Option<double?> oxygen = Amount.Option("--oxygen", Kinds.GasVolume, "Nm3", 0, 100_000, "\"6760 Nm3\"", "Oxygen blown at the time.");
        Option<ReadingStatus> status = Choice.Option("--status", ReadingStatus.Good, "Whether it may be used; a failed probe is a fact too.");
        Option<int> index = Index();
        var probe = new Option<string?>("--probe") { Description = "Probe.", HelpName = "NAME" };
        var command = new Command("measure", "What a probe read.") { record.Heat, point, temperature, carbon, ppm, level, oxygen, status, index, probe };
        record.AddTo(command);
        command.SetAction(parsed =>
        {
            var body = new MeasurementBody(
                parsed.GetValue(point), parsed.GetValue(temperature), parsed.GetValue(carbon), parsed.GetValue(ppm) * 1e4, parsed.GetValue(level),
                parsed.GetValue(oxygen), parsed.GetValue(status), parsed.GetValue(index), parsed.GetValue(probe));
            return body is { TemperatureK: null, CarbonPercent: null, OxygenPpm: null, BathLevelM: null, Status: not ReadingStatus.Bad }
                ? throw new BadInputException("measure: nothing was read.", "give --temperature, --carbon, --oxygen-ppm or --bath-level, or --status bad for a failed probe")
                : record.Write(parsed, body);
        });
        return (command, ["heatwright record measure L-1001 in-blow --temperature \"1550 °C\" --carbon 0.48 --oxygen 6760", "heatwright record measure L-1001 end-of-blow --status bad --reason \"no plateau\""]);
    }

    public static (Command, IReadOnlyList<string>) Analyse()
    {
        var record = new RecordOptions();
        Argument<HeatPoint> point = Choice.Argument<HeatPoint>("POINT", "Where in the heat the sample was taken; --time is that of the sample.");
        var values = new Argument<string[]>("VALUE") { Description = "Element or constituent and mass %: C=0.045 P=0.012 \"S=<0.002\".", Arity = ArgumentArity.OneOrMore };
        var slag = new Option<bool>("--slag") { Description = "A slag sample: constituents such as CaO, FeO." };
        var sample = new Option<string?>("--sample") { Description = "Sample number.", HelpName = "NAME" };
        Option<int> index = Index();
        var command = new Command("analyse", "What the laboratory found.") { record.Heat, point, values, slag, sample, index };
        record.AddTo(command);
        command.SetAction(parsed =>
        {
            SampledMatter matter = parsed.GetValue(slag) ? SampledMatter.Slag : SampledMatter.Metal;
            var percent = new Dictionary<string, Reading>(StringComparer.Ordinal);
            foreach (string text in parsed.GetValue(values)!)
            {
                (string name, Reading reading) = Percent(text, matter);
                percent[name] = percent.ContainsKey(name) ? throw new BadInputException($"VALUE: {name} is given twice.", "give each once") : reading;
            }

            return record.Write(parsed, new AnalysisBody(parsed.GetValue(point), matter, percent, parsed.GetValue(sample), parsed.GetValue(index)));
        });
        return (command, ["heatwright record analyse L-1001 end-of-blow C=0.045 Mn=0.14 P=0.012 \"S=<0.005\"", "heatwright record analyse L-1001 end-of-blow --slag CaO=46 SiO2=13 FeO=18"]);
    }

    internal static Option<int> Index()
    {
        var index = new Option<int>("--index") { Description = "Which of several, from 1.", HelpName = "N", DefaultValueFactory = _ => 1 };
        index.Validators.Add(result =>
        {
            if (result.GetValueOrDefault<int>() is < 1 or > 99)
            {
                result.AddError("--index: it lies outside 1 to 99. Mend: count from 1.");
            }
        });
        return index;
    }

    private static (string Name, Reading Reading) Percent(string text, SampledMatter matter)
    {
        string[] parts = text.Split('=', 2);
        bool known = matter == SampledMatter.Metal ? Enum.GetNames<Element>().Contains(parts[0]) : Enum.GetNames<Constituent>().Contains(parts[0]);
        if (!known)
        {
            throw new BadInputException($"VALUE: '{parts[0]}' is no {(matter == SampledMatter.Metal ? "element" : "constituent")} that is known here.", matter == SampledMatter.Metal ? "write C, Si, Mn, P, S and so on; for slag add --slag" : "write CaO, SiO2, MgO, FeO and so on");
        }

        string number = parts.Length == 2 ? parts[1].Trim() : "";
        bool below = number.StartsWith('<');
        number = number.TrimStart('<').TrimEnd('%', ' ');
        return double.TryParse(number, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) && value is >= 0 and <= 100
            ? (parts[0], new Reading(value, below))
            : throw new BadInputException($"VALUE: '{text}' is not a name, '=' and mass % from 0 to 100.", "write P=0.012, or \"S=<0.002\" for below the limit of detection");
    }
}
