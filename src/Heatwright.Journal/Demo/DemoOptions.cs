// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Journal.Demo;

/// <summary>What demonstration year is made. The same options and program version give the same entries, byte for byte.</summary>
public sealed record DemoOptions
{
    /// <summary>Most heats: some five years at the invented works' pace.</summary>
    public const int MostHeats = 10_000;

    /// <summary>Heats; 2 000 fill about a year.</summary>
    public int Heats { get; init; } = 2000;

    /// <summary>Seed of everything that varies.</summary>
    public int Seed { get; init; } = 1;

    /// <summary>The last heats that carry signal blocks. The ones before are kept without, as many works do to keep the file moderate.</summary>
    public int HeatsWithSignals { get; init; } = 60;

    /// <summary>First day by the works' clock.</summary>
    public DateOnly FirstDay { get; init; } = new(2025, 1, 6);

    /// <summary>Threads of the blow model; zero for one per core. No effect on the entries.</summary>
    public int Workers { get; init; }

    /// <summary>Members of the small ensemble behind the band of each plan.</summary>
    public int PlanMembers { get; init; } = 16;

    internal void Validate()
    {
        Range(Heats, 1, MostHeats, "heats", nameof(Heats));
        Range(HeatsWithSignals, 0, MostHeats, "heats", nameof(HeatsWithSignals));
        Range(Workers, 0, 1024, "threads", nameof(Workers));
        Range(PlanMembers, 4, 1000, "members", nameof(PlanMembers));
    }

    private static void Range(int value, int least, int most, string unit, string name)
    {
        if (value < least || value > most)
        {
            throw new ArgumentOutOfRangeException(name, value, $"{name} is {value} {unit}; give {least} to {most}.");
        }
    }
}

/// <summary>How far the filling has come.</summary>
/// <param name="Heats">Heats whose entries are made.</param>
/// <param name="Of">Heats asked for.</param>
/// <param name="Entries">Entries written.</param>
public readonly record struct DemoProgress(int Heats, int Of, long Entries);
