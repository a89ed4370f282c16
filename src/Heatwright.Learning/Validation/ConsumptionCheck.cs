// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Converter;
using Heatwright.Converter.Blow;
using Heatwright.Converter.Charge;
using Heatwright.Converter.Gas;
using Heatwright.Shop;

namespace Heatwright.Learning.Validation;

/// <summary>A figure per tonne of liquid steel beside a published range.</summary>
public sealed record RangeRow(string Name, string Unit, double Value, double Least, double Most, string Source)
{
    /// <summary>True inside the range.</summary>
    public bool Inside => Value >= Least && Value <= Most;
}

/// <summary>Consumption of an ordinary heat of the demonstration works.</summary>
/// <param name="Heat">File of the heat.</param>
/// <param name="SteelT">Liquid steel, t.</param>
/// <param name="Rows">Figures.</param>
public sealed record ConsumptionResult(string Heat, double SteelT, IReadOnlyList<RangeRow> Rows);

/// <summary>
/// Consumption and emission against the ranges of the European process: R. Remus, M. A. Aguado-Monsonet, S. Roudier, L. Delgado Sancho,
/// BAT Reference Document for Iron and Steel Production, JRC 2013, chapter 7 (ranges from memory, per t liquid steel).
/// </summary>
public static class ConsumptionCheck
{
    /// <summary>The heat taken as ordinary.</summary>
    public const string OrdinaryHeat = "heats/ordinary.yaml";

    private const string Bref = "EU BREF Iron and Steel 2013, ch. 7 (from memory)";
    private const string Trade = "common practice, from memory";

    /// <summary>Runs the ordinary demonstration heat.</summary>
    public static ConsumptionResult Run(ModelParameters parameters)
    {
        Heat heat = ShopLoader.LoadDemonstrationHeat(OrdinaryHeat).ValueOrThrow();
        HeatInput input = HeatBuilder.Build(ShopLoader.DemonstrationWorks, heat);
        return Of(OrdinaryHeat, input, parameters);
    }

    /// <summary>Figures of a heat.</summary>
    public static ConsumptionResult Of(string name, HeatInput input, ModelParameters parameters)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(parameters);
        const double Step = 2;
        BlowResult result = BlowModel.Run(input, parameters, new BlowOptions(RecordEveryS: Step));
        double steel = result.End.MetalKg / 1000;
        double collected = 0;
        double collectedMJ = 0;
        double steamMJ = 0;
        for (int i = 1; i < result.Trajectory.Count; i++)
        {
            BlowPoint p = result.Trajectory[i];
            double dt = p.TimeS - result.Trajectory[i - 1].TimeS;
            if (p.OxygenNm3PerS <= 0)
            {
                continue;
            }

            HoodGas g = HoodCourse.At(input, p);
            steamMJ += Math.Max(0, g.HeatToCoolantW) * dt / 1e6;
            if (g.DryPercent(GasSpecies.CO) > 30 && g.DryPercent(GasSpecies.O2) < HoodGas.MostOxygenWithFuelPercent)
            {
                collected += g.DryNm3PerS * dt;
                collectedMJ += g.DryNm3PerS * g.DryPercent(GasSpecies.CO) / 100 * dt * CarbonMonoxideMJPerNm3;
            }
        }

        double lime = input.Programme.Additions.Where(a => a.Material.Analysis[Constituent.CaO] > 80).Sum(a => a.MassKg);
        double dustIron = result.Balance.Elements.Single(e => e.Element == Element.Fe).DustKg;

        // Fume is iron oxide by the time it is caught: counted as FeO and Fe2O3 half and half by iron.
        double dust = dustIron * 0.5 * ((1 / Constituents.MassFraction(Constituent.FeO, Element.Fe)) + (1 / Constituents.MassFraction(Constituent.Fe2O3, Element.Fe)));
        dust += result.Balance.Elements.Where(e => e.Element != Element.Fe).Sum(e => e.DustKg);
        ElementRow iron = result.Balance.Elements.Single(e => e.Element == Element.Fe);
        double slag = result.End.SlagKg + result.End.UndissolvedFluxKg;
        return new ConsumptionResult(name, steel,
        [
            new("hot metal", "kg/t", input.HotMetal.MassKg / steel, 788, 931, Bref),
            new("scrap", "kg/t", input.Scrap.Sum(s => s.MassKg) / steel, 101, 340, Bref),
            new("burnt lime", "kg/t", lime / steel, 30, 67, Bref),
            new("oxygen", "Nm³/t", input.Programme.OxygenNm3 * input.Programme.BlownFraction / steel, 49.5, 70, Bref),
            new("slag", "kg/t", slag / steel, 85, 165, Bref),
            new("dust in the raw gas", "kg/t", dust / steel, 15, 20, Bref),
            new("gas collected (CO above 30 %, O2 below 2 %)", "MJ/t", collectedMJ / steel, 350, 700, Bref),
            new("gas collected", "Nm³/t", collected / steel, 70, 110, Trade),
            new("heat to hood and stack (steam)", "MJ/t", steamMJ / steel, 124, 335, Bref),
            new("iron yield (Fe in steel over Fe charged)", "%", 100 * iron.MetalKg / iron.InKg, 92, 98, Trade),
        ]);
    }

    /// <summary>Net calorific value of CO, MJ/Nm³: 282.98 kJ/mol (JANAF) over 22.414 l/mol.</summary>
    private const double CarbonMonoxideMJPerNm3 = 282.98 / 22.414;
}
