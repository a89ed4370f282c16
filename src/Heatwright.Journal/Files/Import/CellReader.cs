// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Files.Mapping;
using Heatwright.Journal.Files.Tables;
using Heatwright.Shop.Files;
using Heatwright.Shop.Units;

namespace Heatwright.Journal.Files.Import;

/// <summary>Why a cell cannot be taken.</summary>
internal readonly record struct CellFault(string Code, string Written, string Message, string? Limit, string Mend);

/// <summary>Reads the cells of one column.</summary>
internal sealed class CellReader(ColumnRule rule, ImportMapping mapping, bool typed)
{
    private readonly DecimalEvidence _evidence = new();
    private readonly IReadOnlyList<string> _missing = rule.Missing ?? mapping.Missing;
    private readonly Dictionary<string, int> _unitsInCells = new(StringComparer.Ordinal);

    public ColumnRule Rule => rule;

    /// <summary>Decimal sign of the column's texts.</summary>
    public DecimalSign Sign { get; private set; } = rule.Sign ?? mapping.Sign ?? DecimalSign.Point;

    /// <summary>How the sign was found, for the preview; null when nothing needed it.</summary>
    public string? SignFact { get; private set; }

    /// <summary>Units that stood in cells, with how often.</summary>
    public IReadOnlyDictionary<string, int> UnitsInCells => _unitsInCells;

    /// <summary>Values that no heat can have, left out as the mapping says.</summary>
    public int Impossible { get; private set; }

    /// <summary>Blank, or one of the words for nothing.</summary>
    public static bool IsMissing(string text, IReadOnlyList<string> words) =>
        text.Length == 0 || words.Any(w => string.Equals(w, text, StringComparison.OrdinalIgnoreCase));

    /// <summary>Looks at a cell for its decimal sign.</summary>
    public void Learn(Cell cell)
    {
        if (cell.Kind == CellKind.Text && !rule.Quantity.IsText && !IsMissing(cell.Text!.Trim(), _missing))
        {
            _evidence.Add(cell.Text!);
        }
    }

    /// <summary>Settles the decimal sign, or says why that cannot be done.</summary>
    public Problem? Decide(string file)
    {
        DecimalSign? stated = rule.Sign ?? mapping.Sign;
        if (stated is { } said)
        {
            // What a person stated holds: one mistyped cell must not change the meaning of all the others.
            Sign = said;
            SignFact = _evidence.Against(said) is { } against
                    ? $"'{against}' has no decimal {Word(said)}, which the mapping states: the column is read with it all the same, and cells that cannot be are rejected"
                : _evidence.Shown is not null ? $"decimal {Word(said)}"
                : _evidence.Unclear is { } u ? $"'{u}' could be read in two ways; read with a decimal {Word(said)}, as the mapping states" : null;
            return null;
        }

        if (_evidence.Shown is { } shown)
        {
            Sign = shown;
            SignFact = $"decimal {Word(shown)}";
            return null;
        }

        (string Value, string Message)? fault = _evidence.Both is { } both
            ? (both.Comma, $"The column has decimal points ('{both.Point}') and decimal commas ('{both.Comma}').")
            : _evidence.Unclear is { } text ? (text, $"'{text}' can mean two numbers, and nothing in the column shows which.") : null;
        return fault is null
            ? null
            : new Problem(
                TableProblem.DecimalUnclear, file, 0, 0, rule.Column, fault.Value.Value, fault.Value.Message, "point or comma",
                $"state it in the mapping: decimal: point or decimal: comma, under table or for column {rule.Column}");
    }

    /// <summary>Reads a cell: a value, nothing, or a fault.</summary>
    public (WideValue? Value, CellFault? Fault) Read(Cell cell)
    {
        if (cell.Kind == CellKind.Blank)
        {
            return default;
        }

        if (rule.Quantity.IsText)
        {
            return (ReadText(cell), null);
        }

        switch (cell.Kind)
        {
            case CellKind.Number:
                return IsMissingNumber(cell) ? default : Finish(cell.Number, false, rule.Unit!, cell.AsText(), rule.Scale);
            case CellKind.Span when rule.Quantity.Kind == Kinds.Time:
                return Finish(rule.Unit!.FromBase(cell.Number), false, rule.Unit, cell.AsText(), 1);
            case CellKind.Text:
                return ReadNumber(cell.Text!);
            default:
                string what = cell.Kind switch { CellKind.Time => "a date", CellKind.Span => "a time of day", _ => "true or false" };
                return (null, new CellFault(
                    ProblemCode.NotANumber, cell.AsText(), $"The cell holds {what}, and {rule.Quantity.Name} is a number.", null, "format the cell as a number, or correct it"));
        }
    }

    private WideValue? ReadText(Cell cell)
    {
        string text = cell.AsText();
        if (mapping.OwnLayout)
        {
            return WideValue.Of(typed ? text : FormulaText.Unescape(text));
        }

        text = text.Trim();
        return IsMissing(text, _missing) || (rule.ZeroIsMissing && text == "0") ? null : WideValue.Of(text);
    }

    private bool IsMissingNumber(Cell cell) =>
        (rule.ZeroIsMissing && cell.Number == 0) || (!mapping.OwnLayout && _missing.Any(w => NumberText.Read(w, DecimalSign.Point, out WrittenNumber n) is null && n.Value == cell.Number));

    private (WideValue? Value, CellFault? Fault) ReadNumber(string text)
    {
        if (IsMissing(text.Trim(), _missing))
        {
            return default;
        }

        if (NumberText.Read(text, Sign, out WrittenNumber number) is { } why)
        {
            return (null, new CellFault(
                ProblemCode.NotANumber, text, $"The cell {why}.", $"a number with a decimal {Word(Sign)}, '<' and a number, or blank", (rule.Sign ?? mapping.Sign) is { } stated && text.AsSpan().ContainsAny('.', ',')
                    ? $"correct it, or state decimal: {Word(stated == DecimalSign.Point ? DecimalSign.Comma : DecimalSign.Point)} for column {rule.Column} in the mapping if the whole column is so"
                    : "correct it, or name it under missing if it stands for nothing"));
        }

        Unit unit = rule.Unit!;
        if (number.Unit.Length > 0)
        {
            if (rule.Quantity.Kind!.Find(number.Unit) is not { } found)
            {
                bool known = Kinds.All.Any(k => k.Find(number.Unit) is not null);
                return (null, new CellFault(
                    known ? ProblemCode.WrongUnit : ProblemCode.UnknownUnit, text, $"'{number.Unit}' is no unit of {rule.Quantity.Kind.Name}, which {rule.Quantity.Name} is.",
                    rule.Quantity.Kind.UnitList(), "correct the unit, or map the column to what it holds"));
            }

            // A unit in the cell speaks for itself; the mapping's scale is for bare numbers.
            _unitsInCells[found.Symbol] = _unitsInCells.GetValueOrDefault(found.Symbol) + 1;
            return rule.ZeroIsMissing && number.Value == 0 ? default : Finish(number.Value, number.Below, found, text, 1);
        }

        return rule.ZeroIsMissing && number.Value == 0 ? default : Finish(number.Value, number.Below, unit, text, rule.Scale);
    }

    private (WideValue? Value, CellFault? Fault) Finish(double number, bool below, Unit unit, string written, double scale)
    {
        ImportQuantity q = rule.Quantity;
        double stored = q.ToStored(scale == 1 ? number : number * scale, unit);
        if (q.Part == QuantityPart.Duration && !mapping.OwnLayout)
        {
            // It becomes the times of two entries, which are kept to the millisecond.
            stored = Math.Round(stored * 1000) / 1000;
        }

        if (!double.IsFinite(stored))
        {
            return (null, new CellFault(ProblemCode.NotFinite, written, "The number is larger than any.", null, "correct it"));
        }

        if (below && q.Part != QuantityPart.Percent)
        {
            return (null, new CellFault(
                ProblemCode.NotANumber, written, $"Only an analysis can lie below a limit, and {q.Name} is none.", "a number", "write the number, or leave the cell blank"));
        }

        if (!mapping.OwnLayout && q.IsImpossible(stored))
        {
            if (rule.ImpossibleIsMissing)
            {
                Impossible++;
                return default;
            }

            return (null, new CellFault(
                TableProblem.Impossible, written, $"No heat has {q.Name} = {UnitText.Number(number * scale)} {unit.Symbol}.", Possible(q, unit),
                "correct it, check unit and scale of the column in the mapping, or state impossible: missing for it"));
        }

        return (new WideValue(stored, below), null);
    }

    // In the unit of the cell, so that limit and value can be set side by side.
    private static string Possible(ImportQuantity q, Unit unit)
    {
        string In(double stored) => UnitText.Number(Math.Round(unit.FromBase(q.StoredUnit!.ToBase(stored)), 6));
        return q.Part == QuantityPart.Duration ? $"more than 0 and at most {In(ImportQuantity.LongestSeconds)} {unit.Symbol}"
            : q.Kind == Kinds.MassPercent ? $"0 to {In(q.StoredUnit!.FromBase(100))} {unit.Symbol}"
            : $"{In(0)} {unit.Symbol} or more";
    }

    private static string Word(DecimalSign sign) => sign == DecimalSign.Point ? "point" : "comma";
}
