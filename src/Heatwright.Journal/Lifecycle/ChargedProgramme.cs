// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter;
using Heatwright.Journal.Entries;
using Heatwright.Shop;

namespace Heatwright.Journal.Lifecycle;

/// <summary>What was and will be added to a heat of the record, where on the axis of oxygen, and the model's input that follows.</summary>
internal static class ChargedProgramme
{
    /// <summary>The input with what had fallen until a moment, and what is still to come where the blow was not over.</summary>
    /// <param name="heat">The heat.</param>
    /// <param name="until">Additions of a later source time are left out.</param>
    /// <param name="ahead">What the plan holds beyond what has fallen is still to come.</param>
    /// <exception cref="CannotAskException">The works does not have a material, or the practice does not say when it is added.</exception>
    public static HeatInput Build(ChargedHeat heat, DateTimeOffset until, bool ahead)
    {
        Fact<AdditionBody>[] given = [.. heat.Record.Additions.Where(a => a.Body.Place == AdditionPlace.Converter && a.Time <= until)];
        var written = new Dictionary<string, double>(StringComparer.Ordinal);
        bool planned = ahead || given.Length == 0;
        foreach ((string material, double kg) in planned ? heat.Plan?.AdditionsKg ?? new Dictionary<string, double>() : new Dictionary<string, double>())
        {
            double left = kg - given.Where(a => a.Body.Material == material).Sum(a => a.Body.MassKg);

            // A scale's last kilograms are not another batch.
            if (left > 0.01 * kg)
            {
                written[material] = left;
            }
        }

        if (written.Count > 0)
        {
            heat.Note(given.Length == 0 ? "Additions as planned: none is entered." : $"Still to come as planned: {string.Join(", ", written.Keys)}.");
        }

        Known(heat.Works, written.Keys.Concat(given.Select(g => g.Body.Material)));
        HeatInput empty = Shop(heat, new Dictionary<string, double>());
        var placed = new List<Addition>();
        foreach (Fact<AdditionBody> addition in given)
        {
            heat.Use(addition);
            FluxMaterial material = heat.Works.Materials.Additions[addition.Body.Material].Material;
            if (Percent(heat, empty.Programme, addition) is { } percent)
            {
                placed.Add(new Addition(percent, material, addition.Body.MassKg));
                continue;
            }

            heat.Note($"{addition.Body.Material}: neither oxygen nor time says when it fell; placed as the practice does.");
            placed.AddRange(Shop(heat, new Dictionary<string, double> { [addition.Body.Material] = addition.Body.MassKg }).Programme.Additions);
        }

        // What is still to come cannot fall before what has fallen.
        double now = placed.Select(p => p.OxygenPercent).DefaultIfEmpty(-1000).Max();
        placed.AddRange(Shop(heat, written).Programme.Additions.Select(a => a with { OxygenPercent = Math.Max(a.OxygenPercent, now) }));
        return empty with
        {
            Programme = empty.Programme with { Additions = [.. placed.OrderBy(a => a.OxygenPercent).ThenBy(a => a.Material.Name, StringComparer.Ordinal)] },
        };
    }

    /// <summary>Share of the planned oxygen at a moment of the first blow, %; null when the record does not tell.</summary>
    public static double? Percent(ChargedHeat heat, BlowProgramme programme, DateTimeOffset time)
    {
        if (heat.Blow?.Began is not { } began)
        {
            return null;
        }

        if (time <= began)
        {
            return 0;
        }

        if (heat.Blow.Ended is { } ended)
        {
            double all = 100 * (heat.Blow.OxygenNm3 ?? heat.PlannedNm3) / heat.PlannedNm3;
            return Math.Min(all, all * (time - began) / (ended - began));
        }

        return PercentAfter(programme, (time - began).TotalSeconds);
    }

    private static double? Percent(ChargedHeat heat, BlowProgramme programme, Fact<AdditionBody> addition) =>
        addition.Body.OxygenNm3 is { } oxygen ? 100 * oxygen / heat.PlannedNm3 : Percent(heat, programme, addition.Time);

    /// <summary>Share of the oxygen that the set points give in so many seconds, %.</summary>
    private static double PercentAfter(BlowProgramme programme, double seconds)
    {
        double percent = 0;
        IReadOnlyList<SetPoint> flow = programme.OxygenFlowNm3PerS;
        for (int i = 0; i < flow.Count; i++)
        {
            double perSecond = 100 * flow[i].Value / programme.OxygenNm3;
            double span = i + 1 < flow.Count ? flow[i + 1].OxygenPercent - percent : 100 - percent;
            double taken = Math.Min(seconds, span / perSecond);
            percent += taken * perSecond;
            seconds -= taken;
        }

        return percent;
    }

    private static void Known(Works works, IEnumerable<string> materials)
    {
        string[] unknown = [.. materials.Where(m => !works.Materials.Additions.ContainsKey(m)).Distinct()];
        if (unknown.Length > 0)
        {
            throw new CannotAskException($"The works has no addition '{string.Join("', '", unknown)}'; it has {string.Join(", ", works.Materials.Additions.Keys)}. Mend: correct the entry, or use the files of the works that have it.");
        }
    }

    private static HeatInput Shop(ChargedHeat heat, IReadOnlyDictionary<string, double> additionsKg)
    {
        try
        {
            return HeatBuilder.Build(heat.Works, heat.Heat, new Charge(heat.HotMetalKg, heat.ScrapKg, additionsKg, heat.PlannedNm3));
        }
        catch (InvalidOperationException e)
        {
            throw new CannotAskException(e.Message + " Mend: enter how much oxygen was blown when it fell.");
        }
    }
}
