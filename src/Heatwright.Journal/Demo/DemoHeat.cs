// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Blow;

namespace Heatwright.Journal.Demo;

/// <summary>One heat of the demonstration year: what its record says, and beside it what was true. The two never meet in the journal.</summary>
public sealed class DemoHeat
{
    private readonly HeatStory _story;

    internal DemoHeat(HeatStory story, IReadOnlyList<TimedEntry> entries)
    {
        _story = story;
        Entries = entries;
    }

    /// <summary>Heat number.</summary>
    public string Number => _story.Slot.Number;

    /// <summary>Converter.</summary>
    public string Unit => _story.Slot.Unit;

    /// <summary>Heats on the lining before this one.</summary>
    public int LiningHeats => _story.Slot.LiningHeats;

    /// <summary>Entries in the order in which they were made; the journal takes them by arrival.</summary>
    public IReadOnlyList<TimedEntry> Entries { get; }

    /// <summary>What no one at the works can weigh.</summary>
    public HiddenHeat Hidden => _story.Hidden;

    /// <summary>Ends of the blow and of each reblow as they really were.</summary>
    public IReadOnlyList<HiddenEnd> Ends => [.. _story.Blows.Select(b => b.End)];

    /// <summary>What the model with its starting parameters says of the heat as it was blown: the error to learn from is against this.</summary>
    public BlowPoint AsBlown => _story.AsBlown!;

    internal HeatStory Story => _story;
}
