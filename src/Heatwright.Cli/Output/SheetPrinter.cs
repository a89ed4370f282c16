// SPDX-License-Identifier: Apache-2.0
using System.Text;
using Spectre.Console;

namespace Heatwright.Cli.Output;

/// <summary>Prints a page: with colour on a terminal, as plain text elsewhere.</summary>
internal static class SheetPrinter
{
    /// <summary>Width of piped output and the most on a terminal: what tables are designed for.</summary>
    private const int Width = 100;

    private static readonly string[] LocaleVariables = ["LC_ALL", "LC_CTYPE", "LANG"];

    public static void Print(Sheet sheet, bool noColour, bool ascii)
    {
        ascii |= !SpeaksUnicode();
        bool colour = !noColour && !Console.IsOutputRedirected && string.IsNullOrEmpty(Environment.GetEnvironmentVariable("NO_COLOR"));
        using var text = new StringWriter();
        IAnsiConsole console = AnsiConsole.Create(new AnsiConsoleSettings
        {
            Ansi = colour ? AnsiSupport.Yes : AnsiSupport.No,
            ColorSystem = colour ? ColorSystemSupport.Standard : ColorSystemSupport.NoColors,
            Interactive = InteractionSupport.No,
            Out = new AnsiConsoleOutput(text),
        });
        console.Profile.Width = Width;
        console.Profile.Capabilities.Unicode = !ascii;
        foreach (Block block in sheet.Blocks)
        {
            Write(console, block, ascii);
        }

        foreach (string line in text.ToString().TrimEnd().Split('\n'))
        {
            Console.Out.WriteLine(line.TrimEnd());
        }
    }

    private static void Write(IAnsiConsole console, Block block, bool ascii)
    {
        string Plain(string text) => Markup.Escape(ascii ? AsciiText.Of(text) : text);
        switch (block)
        {
            case Block.Title title:
                console.MarkupLine($"[bold]{Plain(title.Text)}[/]");
                break;
            case Block.Heading heading:
                console.WriteLine();
                console.MarkupLine($"[bold]{Plain(heading.Text)}[/]");
                break;
            case Block.Words words:
                console.MarkupLine(Plain(words.Text));
                break;
            case Block.Item item:
                // A second line stands under the first word, not under the dash.
                var grid = new Table { Border = TableBorder.None, ShowHeaders = false };
                grid.AddColumn(new TableColumn("") { NoWrap = true, Padding = new Padding(2, 0, 1, 0) });
                grid.AddColumn(new TableColumn("") { Padding = new Padding(0, 0, 0, 0) });
                grid.AddRow("-", Plain(item.Text));
                console.Write(grid);
                break;
            case Block.Caution caution:
                console.MarkupLine($"[yellow]{caution.Word}:[/] {Plain(caution.Text)}");
                break;
            case Block.Table table:
                console.Write(Draw(table, Plain, ascii));
                break;
        }
    }

    private static Table Draw(Block.Table source, Func<string, string> plain, bool ascii)
    {
        var table = new Table { Border = TableBorder.None, ShowHeaders = false, UseSafeBorder = ascii };
        int count = source.Columns.Count;
        int[] widths = [.. source.Columns.Select((c, i) => source.Rows.Select(r => Length(r[i], ascii)).Append(Length(c.Title, ascii)).Append(Length(c.Unit, ascii)).Max())];

        // Two blanks between columns read best; a table that would not fit gets one.
        int gap = widths.Sum() + (2 * (count - 1)) <= Width ? 2 : 1;
        for (int i = 0; i < count; i++)
        {
            Column column = source.Columns[i];
            table.AddColumn(new TableColumn("")
            {
                Alignment = column.Number ? Justify.Right : Justify.Left,
                NoWrap = column.Number,
                Padding = new Padding(0, 0, i == count - 1 ? 0 : gap, 0),
            });
        }

        bool units = source.Columns.Any(c => c.Unit.Length > 0);
        table.AddRow([.. source.Columns.Select(c => plain(c.Title))]);
        if (units)
        {
            table.AddRow([.. source.Columns.Select(c => $"[grey]{plain(c.Unit)}[/]")]);
        }

        if (source.Columns.Any(c => c.Title.Length > 0))
        {
            table.AddRow([.. source.Columns.Select((c, i) => $"[grey]{new string(ascii ? '-' : '─', c.Number ? widths[i] : Math.Min(widths[i], 40))}[/]")]);
        }

        foreach (IReadOnlyList<string> row in source.Rows)
        {
            table.AddRow([.. row.Select(plain)]);
        }

        return table;
    }

    private static int Length(string text, bool ascii) => ascii ? AsciiText.Of(text).Length : text.Length;

    // Without a locale a pipe takes UTF-8 as it comes; a locale that names another character set does not.
    private static bool SpeaksUnicode()
    {
        string? locale = LocaleVariables.Select(Environment.GetEnvironmentVariable).FirstOrDefault(v => !string.IsNullOrEmpty(v));
        return Console.OutputEncoding.CodePage == Encoding.UTF8.CodePage
            && (locale is null || locale.Contains("UTF", StringComparison.OrdinalIgnoreCase));
    }
}

/// <summary>The few signs beyond ASCII that tables use, spelt in ASCII.</summary>
internal static class AsciiText
{
    public static string Of(string text)
    {
        var plain = new StringBuilder(text.Length);
        foreach (char c in text)
        {
            plain.Append(c switch
            {
                '°' => "deg ",
                '³' => "3",
                '²' => "2",
                '±' => "+/-",
                '·' => "*",
                '–' or '−' or '—' => "-",
                '…' => "...",
                '≤' => "<=",
                '≥' => ">=",
                'Δ' => "d",
                '→' => "->",
                '\u00a0' or '\u202f' => " ",
                _ => c < 128 ? c.ToString() : "?",
            });
        }

        return plain.ToString();
    }
}
