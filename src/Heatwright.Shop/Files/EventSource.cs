// SPDX-License-Identifier: Apache-2.0
using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace Heatwright.Shop.Files;

/// <summary>The parser's events, one ahead. Everything that goes wrong below comes out as <see cref="YamlException"/>.</summary>
internal sealed class EventSource
{
    private readonly Parser _parser;
    private Mark _last = Mark.Empty;

    public EventSource(string text)
    {
        _parser = new Parser(new StringReader(text));
        Current = Next();
    }

    /// <summary>The event that is taken next.</summary>
    public ParsingEvent Current { get; private set; }

    /// <summary>Takes the current event, which must be of the type.</summary>
    public T Take<T>()
        where T : ParsingEvent
    {
        if (Current is not T taken)
        {
            throw new YamlException(Current.Start, Current.End, "Something else was expected here");
        }

        if (taken is not StreamEnd)
        {
            Current = Next();
        }

        return taken;
    }

    /// <summary>Takes the current event if it is of the type.</summary>
    public bool TryTake<T>()
        where T : ParsingEvent
    {
        if (Current is not T)
        {
            return false;
        }

        Take<T>();
        return true;
    }

    // The parser guards its own state with exceptions of general types; on some broken texts they come out
    // (found by the fuzz test), and only mean that the text is not YAML.
    private ParsingEvent Next()
    {
        try
        {
            if (_parser.MoveNext() && _parser.Current is { } next)
            {
                _last = next.End;
                return next;
            }
        }
        catch (Exception e) when (e is InvalidOperationException or ArgumentException or IndexOutOfRangeException or FormatException or OverflowException)
        {
            throw new YamlException(_last, _last, "The text breaks off or is broken here", e);
        }

        throw new YamlException(_last, _last, "The text ends too early");
    }
}
