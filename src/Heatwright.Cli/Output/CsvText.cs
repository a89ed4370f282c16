// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using System.Text;

namespace Heatwright.Cli.Output;

/// <summary>Comma-separated text after RFC 4180, with line feeds.</summary>
internal static class CsvText
{
    public static string Of(CsvTable table)
    {
        var text = new StringBuilder();
        Line(text, table.Columns);
        foreach (IReadOnlyList<object> row in table.Rows)
        {
            Line(text, row.Select(Cell));
        }

        return text.ToString();
    }

    private static string Cell(object value) => value switch
    {
        double d => JsonText.Rounded(d).ToString("R", CultureInfo.InvariantCulture),
        IFormattable f => f.ToString(null, CultureInfo.InvariantCulture),
        _ => value.ToString() ?? "",
    };

    private static void Line(StringBuilder text, IEnumerable<string> cells) =>
        text.AppendJoin(',', cells.Select(Quoted)).Append('\n');

    private static string Quoted(string cell) =>
        cell.AsSpan().IndexOfAny(",\"\r\n") < 0 ? cell : "\"" + cell.Replace("\"", "\"\"", StringComparison.Ordinal) + "\"";
}
