// SPDX-License-Identifier: Apache-2.0
using System.Text;
using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace Heatwright.Shop.Files;

/// <summary>
/// Turns bytes into <see cref="Node"/>s. Reads the event stream itself, so that every value keeps its place and no limit
/// can be passed before it is checked: 1 MB, 32 levels, 20 000 values with aliases expanded.
/// </summary>
internal sealed class NodeReader
{
    public const int MaxBytes = 1 << 20;
    public const int MaxDepth = 32;
    public const int MaxValues = 20_000;

    private static readonly UTF8Encoding StrictUtf8 = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    private readonly Reading _reading;
    private readonly Dictionary<string, Node?> _anchors = new(StringComparer.Ordinal);
    private long _values;

    private NodeReader(Reading reading) => _reading = reading;

    /// <summary>The file's top value, or null with at least one problem noted.</summary>
    public static Node? Read(ReadOnlySpan<byte> bytes, Reading reading)
    {
        if (bytes.Length > MaxBytes)
        {
            reading.Add(
                ProblemCode.FileTooLarge, null, "", $"{bytes.Length} bytes", $"The file has {bytes.Length} bytes.", $"at most {MaxBytes} bytes",
                "split it, or take out what does not belong");
            return null;
        }

        string? text = Decode(bytes, reading);
        if (text is null || !CheckLines(text, reading))
        {
            return null;
        }

        return new NodeReader(reading).ReadDocument(text);
    }

    private static string? Decode(ReadOnlySpan<byte> bytes, Reading reading)
    {
        ReadOnlySpan<byte> bom = [0xEF, 0xBB, 0xBF];
        ReadOnlySpan<byte> body = bytes.StartsWith(bom) ? bytes[3..] : bytes;
        try
        {
            return StrictUtf8.GetString(body);
        }
        catch (DecoderFallbackException e)
        {
            int line = 1 + body[..Math.Clamp(e.Index, 0, body.Length)].Count((byte)'\n');
            reading.Add(
                ProblemCode.NotText, line, 1, "", null, "The file is not UTF-8 text.", "UTF-8",
                "save it as UTF-8 (then ° and ³ can be written)");
            return null;
        }
    }

    private static bool CheckLines(string text, Reading reading)
    {
        bool good = true;
        bool empty = true;
        int line = 0;
        foreach (ReadOnlySpan<char> row in text.AsSpan().EnumerateLines())
        {
            line++;
            int indent = row.Length - row.TrimStart(" \t").Length;
            ReadOnlySpan<char> content = row[indent..];
            int control = content.IndexOfAnyInRange('\u0000', '\u001f');
            while (control >= 0 && content[control] == '\t')
            {
                int next = content[(control + 1)..].IndexOfAnyInRange('\u0000', '\u001f');
                control = next < 0 ? -1 : control + 1 + next;
            }

            if (control >= 0)
            {
                reading.Add(
                    ProblemCode.NotText, line, indent + control + 1, "", null, $"The line holds control character {(int)content[control]}.", "printable text",
                    "delete it, or save the file as UTF-8 text");
                return false;
            }

            if (content.IsEmpty || content[0] == '#')
            {
                continue;
            }

            empty = false;
            int tab = row[..indent].IndexOf('\t');
            if (tab >= 0)
            {
                good = false;
                reading.Add(
                    ProblemCode.TabInIndent, line, tab + 1, "", null, "A tab stands in the indent.", "spaces", "replace the tab by two spaces");
                if (reading.Full)
                {
                    return false;
                }
            }
        }

        if (empty)
        {
            reading.Add(
                ProblemCode.EmptyFile, null, "", null, "There is nothing in the file.", null, "begin with `kind:`; the examples folder shows each kind");
        }

        return good && !empty;
    }

    private Node? ReadDocument(string text)
    {
        try
        {
            var events = new EventSource(text);
            events.Take<StreamStart>();
            if (events.Current is StreamEnd)
            {
                _reading.Add(ProblemCode.EmptyFile, null, "", null, "There is nothing in the file.", null, "begin with `kind:`");
                return null;
            }

            events.Take<DocumentStart>();
            Node? node = ReadNode(events, 1, "");
            if (node is null)
            {
                return null;
            }

            events.Take<DocumentEnd>();
            if (events.Current is not StreamEnd)
            {
                Mark at = events.Current.Start;
                _reading.Add(
                    ProblemCode.SecondDocument, (int)at.Line, (int)at.Column, "", null, "A second document begins here.", "one document a file",
                    "put it into a file of its own, or take out the line `---`");
                return null;
            }

            return node;
        }
        catch (YamlException e)
        {
            _reading.Add(
                ProblemCode.NotYaml, (int)e.Start.Line, (int)e.Start.Column, "", null,
                "The text cannot be read as YAML: " + Reading.Shorten(e.Message, 160).TrimEnd('.') + ".", null,
                "look at this line and the one above: indent, colon and space, closing quote or bracket, or a file that was cut off");
            return null;
        }
    }

    private Node? ReadNode(EventSource events, int depth, string field)
    {
        ParsingEvent e = events.Take<ParsingEvent>();
        int line = (int)e.Start.Line;
        int column = (int)e.Start.Column;
        if (depth > MaxDepth)
        {
            _reading.Add(
                ProblemCode.TooDeep, line, column, field, null, $"Nested more than {MaxDepth} levels deep.", $"{MaxDepth} levels", "take out levels");
            return null;
        }

        if (e is AnchorAlias alias)
        {
            if (!_anchors.TryGetValue(alias.Value.Value, out Node? target) || target is null)
            {
                _reading.Add(
                    ProblemCode.UnknownAlias, line, column, field, "*" + alias.Value.Value, $"No complete anchor &{Reading.Shorten(alias.Value.Value, 40)} stands above.",
                    null, "write the values out");
                return null;
            }

            return Count(target.Weight, line, column, field) ? target : null;
        }

        if (e is NodeEvent { Tag.IsEmpty: false } tagged && !(e is Scalar && tagged.Tag.IsNonSpecific))
        {
            _reading.Add(
                ProblemCode.TagNotAllowed, line, column, field, tagged.Tag.ToString(), "YAML tags are not used here.", null, "delete the tag");
            return null;
        }

        if (!Count(1, line, column, field))
        {
            return null;
        }

        string? anchor = e is NodeEvent { Anchor.IsEmpty: false } named ? named.Anchor.Value : null;
        if (anchor is not null)
        {
            _anchors[anchor] = null;
        }

        Node? node = e switch
        {
            Scalar s => new ScalarNode(line, column, s.Value, s.Style == ScalarStyle.Plain),
            SequenceStart => ReadList(events, new ListNode(line, column), depth, field),
            MappingStart => ReadBlock(events, new BlockNode(line, column), depth, field),
            _ => null,
        };
        if (anchor is not null)
        {
            _anchors[anchor] = node;
        }

        return node;
    }

    private ListNode? ReadList(EventSource events, ListNode list, int depth, string field)
    {
        while (!events.TryTake<SequenceEnd>())
        {
            Node? item = ReadNode(events, depth + 1, $"{field}[{list.Items.Count}]");
            if (item is null)
            {
                return null;
            }

            list.Items.Add(item);
            list.Weight += item.Weight;
        }

        return list;
    }

    private BlockNode? ReadBlock(EventSource events, BlockNode block, int depth, string field)
    {
        while (!events.TryTake<MappingEnd>())
        {
            Node? key = ReadNode(events, depth + 1, field);
            if (key is null)
            {
                return null;
            }

            // Shortened: a path is built for each value, and a hostile key may be a megabyte long.
            string name = key is ScalarNode s ? Reading.Shorten(s.Text, 60) : "?";
            Node? value = ReadNode(events, depth + 1, field.Length == 0 ? name : field + "." + name);
            if (value is null)
            {
                return null;
            }

            block.Weight += key.Weight + value.Weight;
            if (key is not ScalarNode scalar)
            {
                _reading.Add(ProblemCode.KeyNotText, key, field, null, "A field's name must be a word.", null, "write `name: value`");
            }
            else if (block.Add(scalar, value) is { } first)
            {
                _reading.Add(
                    ProblemCode.DuplicateKey, key, field.Length == 0 ? name : field + "." + name, Describe(value),
                    $"'{Reading.Shorten(name, 40)}' stands twice in this block; first on line {first.Line}.", "once", "delete one of the two");
            }

            if (_reading.Full)
            {
                return null;
            }
        }

        return block;
    }

    private bool Count(long weight, int line, int column, string field)
    {
        _values += weight;
        if (_values <= MaxValues)
        {
            return true;
        }

        _reading.Add(
            ProblemCode.TooManyValues, line, column, field, null, $"The file holds more than {MaxValues} values, aliases written out.", $"{MaxValues} values",
            "split the file, or write fewer aliases");
        return false;
    }

    private static string? Describe(Node value) => value is ScalarNode s ? s.Text : null;
}
