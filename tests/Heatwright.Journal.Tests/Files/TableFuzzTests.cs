// SPDX-License-Identifier: Apache-2.0
using System.Diagnostics;
using System.Text;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Files;
using Heatwright.Journal.Files.Export;
using Heatwright.Journal.Files.Import;
using Heatwright.Journal.Files.Mapping;
using Heatwright.Journal.Files.Tables;
using Heatwright.Journal.Store;

namespace Heatwright.Journal.Tests.Files;

/// <summary>
/// Spoils files of every kind at random, and reads them. Rows or a refusal with its mend must come out, and nothing else. With
/// HEATWRIGHT_FUZZ_SECONDS set it runs that long and takes its seed from the clock, which it prints on failure.
/// </summary>
public sealed class TableFuzzTests : IDisposable
{
    private const int OrdinaryRounds = 250;

    private static readonly string[] Scraps = ["\"", ",", ";", "\t", "\n", "\r", "#", "'", "=", "<", "1e999", "\0", "\uFEFF", "\uD83D", "°", "-", "NULL", "1.234,5", "\"\"\"", " "];

    private readonly Desk _desk = new();

    public void Dispose() => _desk.Dispose();

    [Theory]
    [InlineData(ExportFormat.Csv)]
    [InlineData(ExportFormat.Xlsx)]
    [InlineData(ExportFormat.Parquet)]
    public void A_spoilt_table_is_read_or_refused(ExportFormat format)
    {
        string good = _desk.Path("good." + format);
        HeatExport.WriteHeats(Filled(), good, format);
        byte[] bytes = File.ReadAllBytes(good);
        ImportMapping mapping = OwnLayout.For(TableSource.Open(good))!;
        Spoil(bytes, (path, _) =>
        {
            HeatImport.Preview(path, OwnLayout.For(TableSource.Open(path)) ?? mapping);
            HeatImport.Preview(path, mapping with { OwnLayout = false, Missing = ImportMapping.UsualMissing });
            MappingDraft.Of(path).ToYaml();
        });
    }

    [Fact]
    public void Spoilt_entries_are_read_or_refused()
    {
        string good = _desk.Path("good.json");
        EntryExport.Write(Filled(), good, ExportFormat.Json);
        Spoil(File.ReadAllBytes(good), (path, _) => Assert.InRange(EntryFile.Read(path).Count(), 0, 60));
    }

    [Fact]
    public void Any_bytes_at_all_are_read_or_refused() => Spoil([], (path, random) =>
    {
        byte[] any = new byte[random.Next(2000)];
        random.NextBytes(any);
        byte[][] starts = [[], [.. "PK\u0003\u0004"u8], [.. "PAR1"u8], [0xFF, 0xFE], [0xEF, 0xBB, 0xBF], [.. "heat,m\n"u8]];
        File.WriteAllBytes(path, [.. starts[random.Next(starts.Length)], .. any]);
        Assert.InRange(TableSource.Open(path).Rows().Count(), 0, 2000);
    });

    [Fact]
    public void A_spoilt_mapping_gives_problems_and_never_an_exception()
    {
        using Stream stream = typeof(TableFuzzTests).Assembly.GetManifestResourceStream("mappings/larkmoor-spreadsheet.yaml")!;
        byte[] bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        int refused = 0;
        Spoil(bytes, (path, _) => refused += MappingFormat.Check(File.ReadAllBytes(path), "m.yaml").Count > 0 ? 1 : 0);
        Assert.True(refused > 0);
    }

    private IJournalStore Filled()
    {
        IJournalStore store = _desk.Journal();
        for (int i = 0; i < 20; i++)
        {
            store.Append(
                NewEntry.Of("L-" + i, new OrderBody(i % 2 == 0 ? "S235JR" : "=a,\"b\"\n;"), _desk.Clock.Now, "person:anna"),
                NewEntry.Of("L-" + i, new AnalysisBody(HeatPoint.EndOfBlow, SampledMatter.Metal, new Dictionary<string, Heatwright.Journal.Entries.Reading> { ["S"] = new(0.002, i % 3 == 0), ["C"] = new(0.04 + (i / 1000.0)) }), _desk.Clock.Now, "person:anna"),
                NewEntry.Of("L-" + i, new MeasurementBody(HeatPoint.EndOfBlow, 1900 + i), _desk.Clock.Now, "person:anna"));
        }

        return store;
    }

    private void Spoil(byte[] good, Action<string, Random> read)
    {
        double seconds = double.TryParse(Environment.GetEnvironmentVariable("HEATWRIGHT_FUZZ_SECONDS"), out double s) ? s / 10 : 0;
        int seed = seconds > 0 ? Environment.TickCount : 20240601;
        var random = new Random(seed);
        var clock = Stopwatch.StartNew();
        string path = _desk.Path("spoilt");
        for (int round = 0; seconds > 0 ? clock.Elapsed.TotalSeconds < seconds : round < OrdinaryRounds; round++)
        {
            byte[] bytes = good;
            for (int n = random.Next(1, 6); n > 0 && bytes.Length > 0; n--)
            {
                bytes = Spoilt(bytes, random);
            }

            File.WriteAllBytes(path, bytes);
            try
            {
                read(path, random);
            }
            catch (FileRefusedException e)
            {
                Assert.All(e.Problems, p => Assert.True(p.Mend.Length > 0 && p.Message.Length > 0));
            }
            catch (Exception e) when (e is not Xunit.Sdk.IAssertionException)
            {
                Assert.Fail($"seed {seed}, round {round}, {Convert.ToBase64String(File.ReadAllBytes(path)[..Math.Min(600, (int)new FileInfo(path).Length)])}: {e}");
            }
        }
    }

    private static byte[] Spoilt(byte[] bytes, Random random)
    {
        int at = random.Next(bytes.Length);
        switch (random.Next(4))
        {
            case 0:
                bytes = [.. bytes];
                bytes[at] ^= (byte)(1 << random.Next(8));
                return bytes;
            case 1:
                return bytes[..at];
            case 2:
                int end = Math.Min(bytes.Length, at + random.Next(20));
                return [.. bytes[..at], .. bytes[end..]];
            default:
                return [.. bytes[..at], .. Encoding.UTF8.GetBytes(Scraps[random.Next(Scraps.Length)]), .. bytes[at..]];
        }
    }
}
