// SPDX-License-Identifier: Apache-2.0
using System.Text;
using System.Text.Json;
using Heatwright.Chemistry;
using Heatwright.Converter;
using Heatwright.Shop.Formats;
using Heatwright.Shop.Units;

namespace Heatwright.Shop;

/// <summary>Writes a heat with a charge as a heat file, so that a plan can be kept, changed by hand and blown.</summary>
public static class HeatWriter
{
    private static readonly Unit Tonne = Kinds.Mass.Units[0];
    private static readonly Unit Celsius = Kinds.Temperature.Units[0];
    private static readonly Unit MassPercent = Kinds.MassPercent.Units[0];
    private static readonly Unit Share = Kinds.Share.Units[0];

    /// <summary>The text of the file. Read back with the same works it gives the same heat and charge, to 13 digits.</summary>
    /// <param name="heat">The heat; its own charge is left out.</param>
    /// <param name="charge">The charge to write.</param>
    /// <param name="note">Remark, e.g. how the charge was found; null keeps the heat's.</param>
    public static string Write(Heat heat, Charge charge, string? note = null)
    {
        ArgumentNullException.ThrowIfNull(heat);
        ArgumentNullException.ThrowIfNull(charge);
        var text = new StringBuilder();
        Line(text, 0, "kind", HeatFormat.Format.Kind);
        Line(text, 0, "format", FileFormat.Version.ToString());
        OptionalText(text, "note", note ?? heat.Note);
        Line(text, 0, "heat", Quoted(heat.Id));
        OptionalText(text, "title", heat.Title);
        Line(text, 0, "converter", Quoted(heat.Converter.Id));
        Line(text, 0, "practice", Quoted(heat.Practice.Id));
        WriteOrder(text, heat.Order);
        WriteHotMetal(text, heat);
        WriteSlag(text, heat.RetainedSlag);
        WriteCharge(text, charge);
        WritePlan(text, heat.Plan);
        return text.ToString();
    }

    private static void WriteOrder(StringBuilder text, Order order)
    {
        Line(text, 0, "order");
        Line(text, 1, "grade", Quoted(order.Grade.Id));
        Line(text, 1, "tappedMass", UnitText.Write(order.TappedMassKg, Tonne));
        Line(text, 1, "temperature", Range(order.TemperatureK, Celsius));
        Line(text, 1, "temperatureAim", UnitText.Write(order.TemperatureAimK, Celsius));
        Line(text, 1, "carbon", Range(order.CarbonPercent, MassPercent));
        Line(text, 1, "carbonAim", UnitText.Write(order.CarbonAimPercent, MassPercent));
        if (order.EndPercent.Count > 0)
        {
            Line(text, 1, "end");
            foreach ((Element element, Limits limits) in order.EndPercent.OrderBy(p => p.Key))
            {
                Line(text, 2, element.ToString(), Range(limits, MassPercent));
            }
        }

        Line(text, 1, "basicity", UnitText.Number(order.Basicity));
        if (order.SlagMgoPercent is { } mgo)
        {
            Line(text, 1, "slagMgo", Range(new Limits(mgo, null), MassPercent));
        }

        Line(text, 1, "confidence", UnitText.Write(order.Confidence * 100, Share));
    }

    private static void WriteHotMetal(StringBuilder text, Heat heat)
    {
        Line(text, 0, "hotMetal");
        Line(text, 1, "temperature", UnitText.Write(heat.HotMetalTemperatureK, Celsius));
        Line(text, 1, "analysis");
        foreach (Element element in AnalysisShapes.MetalElements)
        {
            double percent = heat.HotMetalAnalysis[element];
            if (percent > 0 || element is Element.C or Element.Si or Element.Mn or Element.P or Element.S)
            {
                Line(text, 2, element.ToString(), UnitText.Write(percent, MassPercent));
            }
        }

        Line(text, 1, "slagCarry", UnitText.Write(heat.HotMetalSlagKg, Tonne));
    }

    private static void WriteSlag(StringBuilder text, RetainedSlag slag)
    {
        Line(text, 0, "retainedSlag");
        Line(text, 1, "mass", UnitText.Write(slag.MassKg, Tonne));
        Line(text, 1, "temperature", UnitText.Write(slag.TemperatureK, Celsius));
        Line(text, 1, "analysis");
        foreach (Constituent constituent in Enum.GetValues<Constituent>().Where(c => slag.Analysis[c] > 0))
        {
            Line(text, 2, constituent.ToString(), UnitText.Write(slag.Analysis[constituent], MassPercent));
        }
    }

    private static void WriteCharge(StringBuilder text, Charge charge)
    {
        Line(text, 0, "charge");
        Line(text, 1, "hotMetal", UnitText.Write(charge.HotMetalKg, Tonne));
        Masses(text, "scrap", charge.ScrapKg);
        Masses(text, "additions", charge.AdditionsKg);
        Line(text, 1, "oxygen", UnitText.Write(charge.OxygenNm3, Kinds.GasVolume.Units[0]));
    }

    private static void Masses(StringBuilder text, string name, IReadOnlyDictionary<string, double> massKg)
    {
        if (massKg.Count == 0)
        {
            return;
        }

        Line(text, 1, name);
        foreach ((string id, double kg) in massKg)
        {
            Line(text, 2, Quoted(id), UnitText.Write(kg, Tonne));
        }
    }

    private static void WritePlan(StringBuilder text, PlanScope plan)
    {
        Line(text, 0, "plan");
        Line(text, 1, "objective", HeatFormat.Word(plan.Objective));
        Line(text, 1, "hotMetal", Range(plan.HotMetalKg, Tonne));
        if (plan.Scrap.Count is > 0 and <= HeatInput.MaxScrapClasses)
        {
            Line(text, 1, "scrap");
            foreach (AvailableScrap s in plan.Scrap)
            {
                Line(text, 2, Quoted(s.Scrap.Id), Range(Within(s.LeastKg, s.MostKg, HeatFormat.MostScrapKg), Tonne));
            }
        }

        if (plan.Additions.Count is > 0 and <= HeatInput.MaxFluxes)
        {
            Line(text, 1, "additions");
            foreach (AvailableAddition a in plan.Additions)
            {
                Line(text, 2, Quoted(a.Addition.Id), Range(Within(a.LeastKg, a.MostKg, HeatFormat.MostAdditionKg), Tonne));
            }
        }
    }

    // Stock may be far more than one heat can take.
    private static Limits Within(double leastKg, double mostKg, double limitKg) => new(leastKg > 0 ? leastKg : null, Math.Min(mostKg, limitKg));

    private static string Range(Limits limits, Unit unit) => limits switch
    {
        { Least: { } least, Most: { } most } => $"{UnitText.Number(unit.FromBase(least))} to {UnitText.Write(most, unit)}",
        { Least: { } least } => "min " + UnitText.Write(least, unit),
        { Most: { } most } => "max " + UnitText.Write(most, unit),
        _ => throw new ArgumentException("A range has at least one end.", nameof(limits)),
    };

    private static void OptionalText(StringBuilder text, string name, string? value)
    {
        if (!string.IsNullOrEmpty(value))
        {
            Line(text, 0, name, Quoted(value));
        }
    }

    // A JSON string is a YAML double-quoted scalar.
    private static string Quoted(string value) => value.All(char.IsAsciiLetterOrDigit) && !char.IsAsciiDigit(value[0]) ? value : JsonSerializer.Serialize(value);

    private static void Line(StringBuilder text, int level, string name, string? value = null) =>
        text.Append(' ', 2 * level).Append(name).Append(value is null ? ":" : ": ").Append(value).Append('\n');
}
