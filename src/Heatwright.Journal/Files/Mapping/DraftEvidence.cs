// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using Heatwright.Journal.Files.Tables;

namespace Heatwright.Journal.Files.Mapping;

/// <summary>What the cells of a file show of how times and decimals are written.</summary>
internal sealed class DraftEvidence
{
    // A day that comes only in a later month may be what tells day from month.
    private const int MostRows = 20_000;

    // By what comes first, for that alone can be mistaken: dd/MM and MM/dd.
    private static readonly string[][] Dates =
    [
        ["dd.MM.yyyy", "d.M.yyyy", "dd.MM.yy", "dd-MM-yyyy"],
        ["dd/MM/yyyy", "d/M/yyyy", "dd/MM/yy"],
        ["MM/dd/yyyy", "M/d/yyyy", "MM/dd/yy"],
        ["yyyy-MM-dd", "yyyy/MM/dd", "yyyy.MM.dd"],
    ];

    private static readonly string[] Clocks = ["", " HH:mm", " HH:mm:ss", " H:mm", "'T'HH:mm", "'T'HH:mm:ss"];

    private DraftEvidence()
    {
    }

    /// <summary>Times stand as text, so that a pattern is needed.</summary>
    public bool TextTimes => ExampleTime is not null;

    /// <summary>A text of a time; null when there is none.</summary>
    public string? ExampleTime { get; private set; }

    /// <summary>Patterns that fit every text, one for each order of day, month and year.</summary>
    public IReadOnlyList<string> Patterns { get; private set; } = [];

    /// <summary>Decimal sign of every column that shows one; null when none does or they differ.</summary>
    public DecimalSign? Sign { get; private set; }

    /// <summary>Decimal signs of the columns that show one.</summary>
    public IReadOnlyDictionary<string, DecimalSign> Signs { get; private set; } = new Dictionary<string, DecimalSign>();

    /// <summary>Looks at the cells.</summary>
    public static DraftEvidence Of(TableSource table, IEnumerable<string> time, IReadOnlyList<DraftColumn> columns)
    {
        var evidence = new DraftEvidence();
        int Index(string name) => table.Header.TakeWhile(h => h != name).Count();
        int[] times = [.. time.Select(Index)];
        (string Column, int Index, DecimalEvidence Decimals)[] numbers =
            [.. columns.Where(c => c.Decided && !c.Quantity!.IsText).Select(c => (c.Column, Index(c.Column), new DecimalEvidence()))];
        List<List<string>> open = [.. Dates.Select(d => (List<string>)[.. d.SelectMany(p => Clocks.Select(c => p + c))]), ["iso"]];
        foreach (TableRow row in table.Rows().Take(MostRows))
        {
            foreach ((_, int at, DecimalEvidence decimals) in numbers)
            {
                if (row[at] is { Kind: CellKind.Text, Text: { } text })
                {
                    decimals.Add(text);
                }
            }

            string written = string.Join(' ', times.Select(t => row[t]).Where(c => c.Kind == CellKind.Text).Select(c => c.Text!.Trim()).Where(t => t.Length > 0));
            if (written.Length > 0 && !ImportMapping.UsualMissing.Contains(written, StringComparer.OrdinalIgnoreCase) && times.All(t => row[t].Kind is CellKind.Text or CellKind.Blank))
            {
                evidence.ExampleTime ??= written;
                open.ForEach(o => o.RemoveAll(p => !Fits(written, p)));
            }
        }

        if (evidence.TextTimes)
        {
            // iso takes offsets and seconds as they come; a plain pattern says more where one fits.
            string[] fitting = [.. open[..^1].Where(o => o.Count > 0).Select(o => o[0])];
            evidence.Patterns = fitting.Length > 0 ? fitting : open[^1];
        }

        evidence.Signs = numbers.Where(n => n.Decimals.Shown is not null).ToDictionary(n => n.Column, n => n.Decimals.Shown!.Value, StringComparer.Ordinal);
        bool clash = numbers.Any(n => n.Decimals.Both is not null);
        evidence.Sign = !clash && evidence.Signs.Values.Distinct().ToArray() is [var one] ? one : null;
        return evidence;
    }

    private static bool Fits(string written, string pattern) => pattern == "iso"
        ? DateTimeOffset.TryParseExact(
            written, ["yyyy-MM-dd'T'HH:mm:ss.FFFFFFFK", "yyyy-MM-dd HH:mm:ss.FFFFFFFK", "yyyy-MM-dd'T'HH:mmK", "yyyy-MM-dd HH:mmK", "yyyy-MM-dd"],
            CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out _)
        : DateTime.TryParseExact(written, pattern, CultureInfo.InvariantCulture, DateTimeStyles.None, out _);
}
