// SPDX-License-Identifier: Apache-2.0
using System.Diagnostics;
using System.Globalization;
using System.Text;
using Heatwright.Journal.Files.Import;
using Heatwright.Journal.Files.Mapping;
using Heatwright.Journal.Lifecycle;
using Heatwright.Journal.Store;
using Heatwright.Journal.Views;

namespace Heatwright.Bench;

/// <summary>Import of a sheet of 10 000 heats with 30 columns, and opening one of them as its whole record.</summary>
internal static class ImportBench
{
    private const int Rows = 10_000;
    private const double LimitS = 10;
    private const double OpenLimitS = 0.020;

    private static readonly string[] Scrap = ["heavy", "plate", "returns", "shredded", "new-cuttings"];
    private static readonly string[] Elements = ["C", "Si", "Mn", "P", "S", "Ti", "V", "Cr", "Cu"];

    public static bool Run()
    {
        string folder = Directory.CreateTempSubdirectory("heatwright-bench-").FullName;
        try
        {
            string table = Path.Combine(folder, "heats.csv");
            File.WriteAllText(table, Table());
            ImportMapping mapping = MappingFormat.Read(Encoding.UTF8.GetBytes(Mapping()), "mapping.yaml");
            string journal = Path.Combine(folder, "heats.journal");
            int told = 0;
            long start = Stopwatch.GetTimestamp();
            using SqlJournal store = JournalPlace.Open(journal, new JournalOptions { CreateIfMissing = true });
            ImportOutcome outcome = HeatImport.Write(store, table, mapping, new ImportOptions { Progress = _ => told++ });
            double seconds = Stopwatch.GetElapsedTime(start).TotalSeconds;
            Console.WriteLine($"import, {Rows} rows of {outcome.Preview.Columns.Count + 2} columns: {seconds:F2} s, {outcome.Entries} entries, progress told {told} times  (limit {LimitS:F0} s)");

            start = Stopwatch.GetTimestamp();
            var list = new HeatList(store);
            list.CatchUp();
            Console.WriteLine($"import, first list of its heats: {Stopwatch.GetElapsedTime(start).TotalSeconds:F2} s, then kept");

            int pick = 0;
            Timing open = Stopwatches.Time(() => HeatRecord.Read(store, "B" + (pick = (pick + 6181) % Rows), AsOf.Now, signals: true).PlannedAndActual.Count, 2, 100);
            Console.WriteLine($"import, record of one of its heats with all views: {open}  (limit of the median {OpenLimitS * 1e3:F0} ms)");
            using var process = Process.GetCurrentProcess();
            Console.WriteLine($"import, largest working set of the process so far: {process.PeakWorkingSet64 / 1048576.0:F0} MB");
            return outcome.Status == ImportStatus.Written && outcome.NewHeats == Rows && told > 0 && seconds <= LimitS && open.MedianS <= OpenLimitS;
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static string Table()
    {
        var random = new Random(7);
        var text = new StringBuilder("heat;time;grade;HM t;T HM;");
        text.AppendJoin(';', Elements.Select(e => "HM " + e)).Append(';').AppendJoin(';', Scrap).Append(";lime;dolomite;ore;O2;blow min;T end;C end;P end;Mn end;steel\n");
        string Number(double least, double most, int decimals) => (least + (random.NextDouble() * (most - least))).ToString("F" + decimals, CultureInfo.InvariantCulture).Replace('.', ',');
        DateTime time = new(2024, 1, 1, 0, 0, 0, DateTimeKind.Unspecified);
        for (int row = 0; row < Rows; row++)
        {
            text.Append(CultureInfo.InvariantCulture, $"B{row};{time.AddMinutes(45 * row):dd.MM.yyyy HH:mm};S235JR;{Number(138, 150, 1)};{Number(1320, 1400, 0)};");
            text.AppendJoin(';', Elements.Select(e => e == "C" ? Number(4.2, 4.7, 2) : Number(0.01, 0.5, 3))).Append(';');
            text.AppendJoin(';', Scrap.Select(_ => Number(1, 10, 1))).Append(';');
            text.AppendJoin(
                ';', Number(4, 8, 2), Number(1, 4, 2), Number(0.1, 3, 2), Number(7800, 8600, 0), Number(14, 18, 1), Number(1620, 1690, 0), Number(0.03, 0.08, 3), Number(0.008, 0.02, 4), Number(0.08, 0.2, 3), Number(155, 164, 1)).Append('\n');
        }

        return text.ToString();
    }

    private static string Mapping()
    {
        var text = new StringBuilder("""
            kind: mapping
            format: 1
            name: bench
            heat: heat
            time:
              column: time
              pattern: dd.MM.yyyy HH:mm
              zone: Etc/UTC
            actor: "program:bench"
            columns:
              grade: {quantity: order.grade}
              HM t: {quantity: hot-metal.mass, unit: t}
              T HM: {quantity: hot-metal.temperature, unit: °C}
              lime: {quantity: addition.lime.mass, unit: t}
              dolomite: {quantity: addition.dolomitic-lime.mass, unit: t}
              ore: {quantity: addition.ore.mass, unit: t}
              O2: {quantity: blow.oxygen, unit: Nm3}
              blow min: {quantity: blow.duration, unit: min}
              T end: {quantity: end.temperature, unit: °C}
              C end: {quantity: analysis.end.C, unit: mass %}
              P end: {quantity: analysis.end.P, unit: mass %}
              Mn end: {quantity: analysis.end.Mn, unit: mass %}
              steel: {quantity: steel.mass, unit: t}

            """);
        foreach (string element in Elements)
        {
            text.Append(CultureInfo.InvariantCulture, $"  HM {element}: {{quantity: hot-metal.analysis.{element}, unit: mass %}}\n");
        }

        foreach (string scrap in Scrap)
        {
            text.Append(CultureInfo.InvariantCulture, $"  {scrap}: {{quantity: scrap.{scrap}.mass, unit: t}}\n");
        }

        return text.ToString();
    }
}
