// SPDX-License-Identifier: Apache-2.0
using System.Text.Json;

namespace Heatwright.Cli.Output;

/// <summary>What a command answers, in all forms at once.</summary>
/// <param name="ExitCode">One of <see cref="Cli.ExitCode"/>.</param>
/// <param name="Sheet">For people.</param>
/// <param name="Json">For programs: writes one object.</param>
/// <param name="Csv">For spreadsheets: the main table at full precision.</param>
internal sealed record Answer(int ExitCode, Sheet Sheet, Action<Utf8JsonWriter> Json, CsvTable Csv);

/// <summary>A table for spreadsheets; units stand in the column names.</summary>
internal sealed record CsvTable(IReadOnlyList<string> Columns, IReadOnlyList<IReadOnlyList<object>> Rows);

/// <summary>A page of text and tables.</summary>
internal sealed class Sheet
{
    private readonly List<Block> _blocks = [];

    public IReadOnlyList<Block> Blocks => _blocks;

    public Sheet Title(string text) => Add(new Block.Title(text));

    public Sheet Heading(string text) => Add(new Block.Heading(text));

    public Sheet Words(string text) => Add(new Block.Words(text));

    /// <summary>One entry of a list.</summary>
    public Sheet Item(string text) => Add(new Block.Item(text));

    public Sheet Caution(string text, string word = "Caution") => Add(new Block.Caution(word, text));

    public Sheet Table(IReadOnlyList<Column> columns, IReadOnlyList<IReadOnlyList<string>> rows) => Add(new Block.Table(columns, rows));

    private Sheet Add(Block block)
    {
        _blocks.Add(block);
        return this;
    }
}

/// <summary>A column; words stand left, numbers right.</summary>
internal sealed record Column(string Title, string Unit = "", bool Number = true);

/// <summary>A part of a page.</summary>
internal abstract record Block
{
    public sealed record Title(string Text) : Block;

    public sealed record Heading(string Text) : Block;

    public sealed record Words(string Text) : Block;

    public sealed record Item(string Text) : Block;

    public sealed record Caution(string Word, string Text) : Block;

    public sealed record Table(IReadOnlyList<Column> Columns, IReadOnlyList<IReadOnlyList<string>> Rows) : Block;
}
