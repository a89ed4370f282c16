// SPDX-License-Identifier: Apache-2.0
using Heatwright.Shop.Units;

namespace Heatwright.Journal.Files.Import;

/// <summary>What was found in one column, in the unit that tables show, so that a wrong unit is seen.</summary>
/// <param name="Column">Column of the file.</param>
/// <param name="Quantity">What it holds by the mapping.</param>
/// <param name="Unit">Unit of the file's numbers by the mapping; empty for text.</param>
/// <param name="UnitsInCells">Units that stood in cells themselves, with how often.</param>
/// <param name="Decimals">How its decimal sign was found; null when no number needed one.</param>
/// <param name="Values">Number of values.</param>
/// <param name="Missing">Number of cells without one.</param>
/// <param name="Below">Number of values below a limit of detection.</param>
/// <param name="Least">Least value in <see cref="ImportQuantity.ShownUnit"/>; NaN for text.</param>
/// <param name="Median">Median; of a sample when there are very many.</param>
/// <param name="Most">Largest value.</param>
/// <param name="Doubtful">Number of values outside the plausible limits.</param>
/// <param name="FirstDoubtfulRow">Row of the first of them; 0 when there is none.</param>
/// <param name="Zeros">Number of analyses of exactly zero: often these mean "not looked for".</param>
/// <param name="Impossible">Number of values that no heat can have and that the mapping says to leave out.</param>
/// <param name="FarOff">Number of values more than eight times the width of the middle half away from the median.</param>
/// <param name="FarthestOff">The farthest of them.</param>
/// <param name="FarthestRow">Its row.</param>
/// <param name="Texts">Number of different texts (counted up to 1 000).</param>
/// <param name="Example">First text.</param>
public sealed record ColumnSummary(
    string Column, ImportQuantity Quantity, string Unit, IReadOnlyDictionary<string, int> UnitsInCells, string? Decimals, int Values, int Missing, int Below,
    double Least, double Median, double Most, int Doubtful, int FirstDoubtfulRow, int Zeros, int Impossible, int FarOff,
    double FarthestOff, int FarthestRow, int Texts, string? Example)
{
    /// <summary>More than half of the values are out of any shop's range: the unit is probably wrong.</summary>
    public bool UnitDoubtful => Doubtful * 2 > Values;

    /// <summary>One line for a terminal.</summary>
    public override string ToString()
    {
        string head = $"{Column} -> {Quantity.Name}{(Unit.Length > 0 ? $" [{Unit}]" : "")}: {Values} values";
        string missing = Missing > 0 ? $", {Missing} missing" : "";
        if (Quantity.IsText)
        {
            return $"{head}{missing}, {(Texts >= ColumnStatistics.MostTexts ? "many" : Texts)} different{(Example is null ? "" : $", e.g. {Example}")}";
        }

        if (Values == 0)
        {
            return head + missing;
        }

        string shown = Quantity.ShownUnit!.Symbol;
        return $"{head}{missing}{(Below > 0 ? $", {Below} below a limit" : "")}, {Short(Least)} / {Short(Median)} / {Short(Most)} {shown}"
            + (Zeros > 0 ? $"; {Zeros} are 0" : "") + (Impossible > 0 ? $"; {Impossible} impossible ones left out" : "")
            + (FarOff > 0 ? $"; {FarOff} far off the rest, e.g. {Short(FarthestOff)} in row {FarthestRow}" : "")
            + (Doubtful > 0 ? $"; {Doubtful} outside {Short(Shown(Quantity.Least))} to {Short(Shown(Quantity.Most))} {shown}, first in row {FirstDoubtfulRow}" : "");
    }

    private double Shown(double stored) => Quantity.ShownUnit!.FromBase(Quantity.StoredUnit!.ToBase(stored));

    private static string Short(double value) => UnitText.Number(double.Parse(value.ToString("G6")));
}

/// <summary>Gathers a column's figures; memory stays the same however long the file is.</summary>
internal sealed class ColumnStatistics(CellReader cells)
{
    public const int MostTexts = 1000;

    // Beyond this many values the median is that of a sample, drawn the same way each time.
    private const int Kept = 32_768;

    // How many times the width of the middle half a value may lie from the median before it is pointed out.
    private const double FarWidths = 8;

    private readonly List<(double Value, int Row)> _kept = [];
    private readonly HashSet<string> _texts = new(StringComparer.Ordinal);
    private readonly Random _draw = new(20210106);
    private int _values;
    private int _missing;
    private int _below;
    private int _zeros;
    private int _doubtful;
    private int _doubtfulRow;
    private double _least = double.PositiveInfinity;
    private double _most = double.NegativeInfinity;
    private string? _example;

    public void Add(WideValue? value, int row)
    {
        if (value is not { } v)
        {
            _missing++;
            return;
        }

        _values++;
        ImportQuantity q = cells.Rule.Quantity;
        if (v.Text is { } text)
        {
            _example ??= text;
            if (_texts.Count < MostTexts)
            {
                _texts.Add(text);
            }

            return;
        }

        _below += v.Below ? 1 : 0;
        _zeros += v.Number == 0 && q.Part == QuantityPart.Percent ? 1 : 0;
        if (v.Number > q.Most || (v.Number < q.Least && !v.Below))
        {
            _doubtfulRow = _doubtful++ == 0 ? row : _doubtfulRow;
        }

        _least = Math.Min(_least, v.Number);
        _most = Math.Max(_most, v.Number);
        if (_kept.Count < Kept)
        {
            _kept.Add((v.Number, row));
        }
        else if (_draw.Next(_values) is var at && at < Kept)
        {
            _kept[at] = (v.Number, row);
        }
    }

    public ColumnSummary Summary()
    {
        ImportQuantity q = cells.Rule.Quantity;
        _kept.Sort();
        double Shown(double stored) => q.IsText || _kept.Count == 0 ? double.NaN : q.ShownUnit!.FromBase(q.StoredUnit!.ToBase(stored));
        double Rank(double share) => _kept.Count == 0 ? double.NaN : (_kept[(int)Math.Floor(share * (_kept.Count - 1))].Value + _kept[(int)Math.Ceiling(share * (_kept.Count - 1))].Value) / 2;
        double median = Rank(0.5);
        double far = FarWidths * (Rank(0.75) - Rank(0.25));

        // A middle half of no width (the same batch each time) says nothing of the rest, and additions are what the heat needed.
        bool judged = far > 0 && q.Part is QuantityPart.Temperature or QuantityPart.SteelMass or QuantityPart.OxygenBlown or QuantityPart.Duration || q.Name == "hot-metal.mass";
        List<(double Value, int Row)> off = judged ? _kept.FindAll(k => Math.Abs(k.Value - median) > far) : [];
        (double Value, int Row) farthest = off.Count == 0 ? (double.NaN, 0) : off.MaxBy(k => Math.Abs(k.Value - median));
        return new ColumnSummary(
            cells.Rule.Column, q, cells.Rule.Unit?.Symbol ?? "", cells.UnitsInCells, cells.SignFact, _values, _missing, _below, Shown(_least), Shown(median), Shown(_most),
            _doubtful, _doubtfulRow, _zeros, cells.Impossible, off.Count, Shown(farthest.Value), farthest.Row, _texts.Count, _example);
    }
}
