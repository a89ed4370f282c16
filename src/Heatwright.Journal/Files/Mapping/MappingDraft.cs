// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using System.Text;
using Heatwright.Journal.Files.Import;
using Heatwright.Journal.Files.Tables;
using Heatwright.Shop.Units;

namespace Heatwright.Journal.Files.Mapping;

/// <summary>What a draft says of one column.</summary>
/// <param name="Column">Column of the file.</param>
/// <param name="Quantity">What it probably holds; null: undecided.</param>
/// <param name="Unit">Unit that its name states; null: none was found.</param>
/// <param name="Confidence">0 to 1; below <see cref="MappingDraft.Enough"/> the column is undecided.</param>
/// <param name="Why">From what.</param>
public sealed record DraftColumn(string Column, ImportQuantity? Quantity, Unit? Unit, double Confidence, string Why)
{
    /// <summary>Sure enough, and its unit known where it needs one.</summary>
    public bool Decided => Quantity is not null && Confidence >= MappingDraft.Enough && (Quantity.IsText || Unit is not null);
}

/// <summary>
/// A first mapping for a file that nobody has mapped, from the names of its columns in English or German and, for the way in which
/// times and decimals are written, from its cells. It never guesses silently: a column that it is not sure of, or whose unit is not stated, is listed as undecided.
/// </summary>
public sealed class MappingDraft
{
    /// <summary>Confidence from which a column is mapped.</summary>
    public const double Enough = 0.6;

    private readonly DraftEvidence _evidence;

    private MappingDraft(TableSource table, string? heat, IReadOnlyList<string> time, IReadOnlyList<DraftColumn> columns, DraftEvidence evidence)
    {
        _evidence = evidence;
        Table = table;
        Heat = heat;
        Time = time;
        Columns = columns;
    }

    /// <summary>The file.</summary>
    public TableSource Table { get; }

    /// <summary>Column that probably holds the heat number; null: undecided.</summary>
    public string? Heat { get; }

    /// <summary>Columns that probably hold date and time of the heat; empty: none was found.</summary>
    public IReadOnlyList<string> Time { get; }

    /// <summary>The other columns, in the order of the file.</summary>
    public IReadOnlyList<DraftColumn> Columns { get; }

    /// <summary>How the times are written; null when they need no pattern, or when their cells leave it open.</summary>
    public string? TimePattern => _evidence.Patterns is [var one] ? one : null;

    /// <summary>What is open about the times; null when nothing is.</summary>
    public string? TimeUndecided => !_evidence.TextTimes || Time.Count == 0 || TimePattern is not null ? null
        : _evidence.Patterns.Count > 1 ? $"{string.Join(" and ", _evidence.Patterns)} both fit every cell"
        : $"no usual pattern fits every cell, e.g. '{OneLine(_evidence.ExampleTime!)}'";

    /// <summary>Columns that a person must decide.</summary>
    public IEnumerable<DraftColumn> Undecided => Columns.Where(c => !c.Decided);

    /// <summary>Drafts a mapping for a file.</summary>
    /// <param name="path">The file.</param>
    /// <param name="layout">Where its table stands, where that is known.</param>
    /// <exception cref="FileRefusedException">The file is no table.</exception>
    public static MappingDraft Of(string path, TableLayout? layout = null) => Of(TableSource.Open(path, layout));

    /// <summary>Drafts a mapping for an open table.</summary>
    public static MappingDraft Of(TableSource table)
    {
        ArgumentNullException.ThrowIfNull(table);
        string? heat = table.Header.Where(h => HeaderWords.IsHeat(h)).OrderBy(h => h.Length).FirstOrDefault();
        List<string> time = [.. table.Header.Where(h => h != heat && HeaderWords.IsTime(h))];
        var columns = new List<DraftColumn>();
        foreach (string column in table.Header.Where(h => h != heat && !time.Contains(h)))
        {
            columns.Add(HeaderWords.Guess(column));
        }

        // Two columns for one quantity: neither is sure.
        string[] twice = [.. columns.Where(c => c.Decided).GroupBy(c => c.Quantity!.Name).Where(g => g.Count() > 1).Select(g => g.Key)];
        columns = columns.ConvertAll(c => c.Decided && twice.Contains(c.Quantity!.Name)
            ? c with { Confidence = Enough / 2, Why = $"another column looks like {c.Quantity.Name} too" }
            : c);
        return new MappingDraft(table, heat, time, columns, DraftEvidence.Of(table, time.Take(2), columns));
    }

    /// <summary>The draft as a mapping file: what is decided stands in it, what is not stands in remarks for a person to finish.</summary>
    public string ToYaml()
    {
        var yaml = new StringBuilder();
        yaml.Append(CultureInfo.InvariantCulture, $"kind: mapping\nformat: 1\nname: {Quote(Path.GetFileNameWithoutExtension(Table.Name))}\n");
        yaml.Append("note: Drafted from the names of the columns. Look at each line before use.\n");
        if (Heat is null)
        {
            yaml.Append("# Undecided: which column holds the heat number?\n");
        }

        if (_evidence.Sign is { } sign)
        {
            yaml.Append(CultureInfo.InvariantCulture, $"table:\n  decimal: {Word(sign)}  # as the cells show\n");
        }

        yaml.Append(CultureInfo.InvariantCulture, $"heat: {Quote(Heat ?? "")}\n");
        AppendTime(yaml);
        yaml.Append("columns:\n");
        foreach (DraftColumn c in Columns.Where(c => c.Decided))
        {
            string unit = c.Unit is null ? "" : $", unit: {Quote(c.Unit.Symbol == "%" ? "mass %" : c.Unit.Symbol)}";
            yaml.Append(CultureInfo.InvariantCulture, $"  {Quote(c.Column)}: {{quantity: {Quote(c.Quantity!.Name)}{unit}{Decimal(c)}}}  # {c.Confidence:0.00}: {c.Why}\n");
        }

        foreach (DraftColumn c in Undecided)
        {
            string guess = c.Quantity is null ? "" : $" Perhaps {c.Quantity.Name}{(c.Quantity.IsText || c.Unit is not null ? "" : $", in {c.Quantity.Kind!.UnitList()}")}.";
            yaml.Append(CultureInfo.InvariantCulture, $"# Undecided: {OneLine(c.Column)}: {OneLine(c.Why)}.{OneLine(guess)}\n");
        }

        return yaml.ToString();
    }

    private void AppendTime(StringBuilder yaml)
    {
        yaml.Append("time:\n");
        if (Time.Count == 0)
        {
            yaml.Append("  # Undecided: no column looks like the time of the heat. The heats would be put one minute apart from here on.\n  assume: 2000-01-01 00:00\n");
        }
        else
        {
            yaml.Append(CultureInfo.InvariantCulture, $"  columns: [{string.Join(", ", Time.Take(2).Select(Quote))}]\n");
            yaml.Append(TimePattern is { } pattern ? $"  pattern: {pattern}  # as every cell is written\n"
                : TimeUndecided is { } open ? $"  # Undecided: how is it written? {open}\n  # pattern:\n" : "");
        }

        yaml.Append("  # Undecided: in which zone did the clock run?\n  zone: UTC\n");
    }

    // Columns of different signs each say their own.
    private string Decimal(DraftColumn column) =>
        _evidence.Sign is null && _evidence.Signs.TryGetValue(column.Column, out DecimalSign own) ? $", decimal: {Word(own)}" : "";

    private static string Word(DecimalSign sign) => sign == DecimalSign.Point ? "point" : "comma";

    // Double quotes as in JSON hold any text in YAML.
    private static string Quote(string text) => "\"" + string.Concat(text.Select(c => c switch
    {
        '"' => "\\\"",
        '\\' => "\\\\",
        _ => char.IsControl(c) ? $"\\u{(int)c:X4}" : c.ToString(),
    })) + "\"";

    private static string OneLine(string text) => string.Concat(text.Select(c => char.IsControl(c) ? ' ' : c));
}
