// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using Heatwright.Shop.Files;
using Heatwright.Shop.Units;

namespace Heatwright.Shop.Shapes;

/// <summary>Reads "132 t" and says exactly what is wrong when it cannot.</summary>
internal static class QuantityReader
{
    /// <summary>No quantity of a steel shop is written with a larger number.</summary>
    public const double Largest = 1e9;

    public static bool TryRead(
        string text, IReadOnlyList<QuantityKind> kinds, string example, Node node, Reading reading, string field, out Quantity quantity, out Unit unit)
    {
        quantity = default;
        unit = kinds[0].Units[0];
        string units = string.Join(" or ", kinds.Select(k => k.UnitList()));
        string name = field[(field.LastIndexOf('.') + 1)..];
        string expected = $"a number with its unit ({units})";

        if (NamesNoFiniteNumber(text))
        {
            reading.Add(
                ProblemCode.NotFinite, node, field, text, $"{name} is not a finite number.", expected, $"write the number, for example {example}");
            return false;
        }

        if (!UnitText.TrySplit(text, out double number, out string written))
        {
            string? repaired = Repair(text);
            if (repaired is not null)
            {
                reading.Add(ProblemCode.NotANumber, node, field, text, $"{name} uses a sign that is not a minus.", expected, $"write {repaired}");
                return false;
            }

            reading.Add(ProblemCode.NotANumber, node, field, text, $"{name} is not a number.", expected, $"write {name}: {example}");
            return false;
        }

        if (CommaMend(text, kinds) is { } mend)
        {
            reading.Add(ProblemCode.CommaInNumber, node, field, text, $"{name} has a comma in its number.", "a decimal point, no thousands sign", mend);
            return false;
        }

        if (!double.IsFinite(number) || Math.Abs(number) > Largest)
        {
            reading.Add(
                ProblemCode.NotFinite, node, field, text, $"{name} is larger than anything in a steel shop.", $"numbers up to {Largest:0}",
                $"check the digits, for example {example}");
            return false;
        }

        string digits = Digits(text);
        if (written.Length == 0)
        {
            string proposal = kinds[0].Find(UnitOf(example)) is { } usual ? usual.Symbol : kinds[0].Units[0].Symbol;
            reading.Add(ProblemCode.MissingUnit, node, field, text, $"{name} has no unit.", units, $"write {digits} {proposal}");
            return false;
        }

        foreach (QuantityKind kind in kinds)
        {
            if (kind.Find(written) is { } found)
            {
                unit = found;
                quantity = new Quantity(found.ToBase(number), kind);
                return true;
            }
        }

        NoteUnit(text, digits, number, written, kinds, units, example, node, reading, field, name);
        return false;
    }

    private static void NoteUnit(
        string text, string digits, double number, string written, IReadOnlyList<QuantityKind> kinds, string units, string example, Node node,
        Reading reading, string field, string name)
    {
        if (Kinds.Foreign.TryGetValue(written, out (QuantityKind Kind, Unit Unit) foreign) && kinds.Contains(foreign.Kind))
        {
            Unit target = foreign.Kind.Units[0];
            double value = target.FromBase(foreign.Unit.ToBase(number));
            string rounded = UnitText.Number(double.Parse(value.ToString("G5")));
            reading.Add(ProblemCode.UnknownUnit, node, field, text, $"{name} is in {written}, which is not used here.", units, $"write {rounded} {target.Symbol}");
            return;
        }

        QuantityKind? other = Kinds.All.FirstOrDefault(k => k.Find(written) is not null);
        if (other is not null)
        {
            bool percents = IsPercent(other) && kinds.Any(IsPercent);
            string mend = percents
                ? $"write {digits} {kinds[0].Units[0].Symbol} if {kinds[0].Name} is meant"
                : $"write the value in {units}, for example {example}";
            reading.Add(
                percents ? ProblemCode.WrongKind : ProblemCode.WrongUnit, node, field, text,
                percents
                    ? $"{name} is {kinds[0].Name}, and {(written == "%" ? "% alone does not say so" : $"{written} is {other.Name}")}."
                    : $"{name} is {Article(kinds[0].Name)}, and {written} is a unit of {other.Name}.",
                units, mend);
            return;
        }

        string? near = kinds.SelectMany(k => k.Units).Select(u => u.Symbol).FirstOrDefault(u => string.Equals(u, written, StringComparison.OrdinalIgnoreCase))
            ?? Nearest.Of(written, kinds.SelectMany(k => k.Units).Select(u => u.Symbol).Where(u => u.Length > 2));
        string gas = written is "m3" or "m3/min" or "m3/h" ? " Gas is given at 0 °C and 101.325 kPa (Nm3)." : "";
        reading.Add(
            ProblemCode.UnknownUnit, node, field, text, $"'{Reading.Shorten(written, 30)}' is not a unit that {name} can have.{gas}", units,
            near is not null ? $"write {digits} {near}" : $"write the value in {units}, for example {example}");
    }

    private static bool IsPercent(QuantityKind kind) =>
        kind == Kinds.MassPercent || kind == Kinds.VolumePercent || kind == Kinds.RelativePercent || kind == Kinds.Share;

    private static string Article(string name) => "aeio".Contains(name[0], StringComparison.Ordinal) ? "an " + name : "a " + name;

    private static bool NamesNoFiniteNumber(string text)
    {
        string word = text.Trim().TrimStart('+', '-', '.').Split(' ', 2)[0];
        return word.Equals("nan", StringComparison.OrdinalIgnoreCase) || word.Equals("inf", StringComparison.OrdinalIgnoreCase)
            || word.Equals("infinity", StringComparison.OrdinalIgnoreCase) || word == "∞";
    }

    // "1,385 °C" and "0,45 %": the comma is a thousands sign when exactly three digits follow a number other than 0.
    private static string? CommaMend(string text, IReadOnlyList<QuantityKind> kinds)
    {
        string s = text.Trim();
        int comma = s.IndexOf(',', StringComparison.Ordinal);
        if (comma <= 0 || comma + 1 >= s.Length || !char.IsAsciiDigit(s[comma - 1]) || !char.IsAsciiDigit(s[comma + 1]))
        {
            return null;
        }

        int digits = s[(comma + 1)..].TakeWhile(char.IsAsciiDigit).Count();
        bool thousands = digits == 3 && s[..comma].TrimStart('+', '-', '0').Length > 0 && !kinds.Any(IsPercent);
        return "write " + (thousands ? s.Remove(comma, 1) : string.Concat(s.AsSpan(0, comma), ".", s.AsSpan(comma + 1)));
    }

    private static string? Repair(string text)
    {
        string s = text.Trim();
        return s.Length is > 1 and <= UnitText.MaxLength && s[0] is '−' or '–' && UnitText.TrySplit("-" + s[1..], out _, out _) ? "-" + s[1..] : null;
    }

    private static string UnitOf(string example) => UnitText.TrySplit(example, out _, out string unit) ? unit : "";

    private static string Digits(string text)
    {
        UnitText.TrySplit(text, out double number, out _);
        return number.ToString("0.############", CultureInfo.InvariantCulture);
    }
}
