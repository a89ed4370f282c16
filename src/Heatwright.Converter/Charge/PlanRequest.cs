// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Blow;

namespace Heatwright.Converter.Charge;

/// <summary>What a plan makes as small, or as large, as it can.</summary>
public enum PlanObjective
{
    /// <summary>Least cost of what is charged and blown.</summary>
    Cost,
    /// <summary>Least CO2: what stands behind each material and what leaves the vessel.</summary>
    Co2,
    /// <summary>Most scrap.</summary>
    MostScrap,
}

/// <summary>One thing that a plan chooses the amount of.</summary>
/// <param name="Name">Name as the shop uses it.</param>
/// <param name="Least">Least amount, kg (oxygen: Nm³).</param>
/// <param name="Most">Greatest amount: stock or a limit of the heat. Zero: at hand but not allowed, so that an infeasible plan can say what it would do.</param>
/// <param name="Price">Price, EUR per kg (oxygen: per Nm³).</param>
/// <param name="Co2">CO2 emitted before it reaches the converter, kg per kg (oxygen: per Nm³).</param>
/// <param name="BulkDensityKgM3">Bulk density in the scrap box, kg/m³; infinite for what does not go into the box.</param>
/// <param name="Start">Amount to start the search from; null for a guess.</param>
public sealed record PlanMaterial(
    string Name,
    double Least,
    double Most,
    double Price,
    double Co2,
    double BulkDensityKgM3 = double.PositiveInfinity,
    double? Start = null);

/// <summary>Amounts chosen.</summary>
/// <param name="HotMetalKg">Hot metal, kg.</param>
/// <param name="ScrapKg">Scrap, kg, in the order of the request.</param>
/// <param name="AdditionsKg">Fluxes, coolants and heating agents, kg, in the order of the request.</param>
/// <param name="OxygenNm3">Oxygen (0 °C, 101.325 kPa), Nm³.</param>
public sealed record PlanDecision(
    double HotMetalKg, IReadOnlyList<double> ScrapKg, IReadOnlyList<double> AdditionsKg, double OxygenNm3)
{
    /// <summary>All scrap, kg.</summary>
    public double TotalScrapKg => ScrapKg.Sum();
}

/// <summary>A limit on what comes out.</summary>
/// <param name="Quantity">What is limited.</param>
/// <param name="Least">Least value in the quantity's unit; null for none.</param>
/// <param name="Most">Greatest value; null for none.</param>
/// <param name="Aim">Where between them the plan shall aim, as far as the other limits allow; null: wherever it is cheapest.</param>
public sealed record PlanLimit(PlanQuantity Quantity, double? Least = null, double? Most = null, double? Aim = null);

/// <summary>An in-blow measurement that the practice provides for, with a correction of oxygen and coolant after it.</summary>
/// <param name="OxygenPercent">Share of the planned oxygen at which it is taken, %.</param>
/// <param name="TemperatureErrorK">Standard error of the bath temperature, K.</param>
/// <param name="CarbonErrorPercent">Standard error of carbon, mass %.</param>
public sealed record PlanMeasurement(double OxygenPercent = 82, double TemperatureErrorK = 6, double CarbonErrorPercent = 0.04);

/// <summary>How sure a plan shall be.</summary>
/// <param name="Probability">Probability with which each window on temperature and analysis is to be met, 0.5 to 0.999.</param>
/// <param name="Parameters">Spread of the parameters.</param>
/// <param name="Inputs">Spread of what is weighed.</param>
/// <param name="Measurement">
/// In-blow measurement; null: none. With one, the temperature and carbon that count are those after its correction, which
/// can cool but not heat: so the plan leans to the hot side.
/// </param>
/// <param name="Seed">Seed of the ensemble.</param>
/// <param name="ShiftMembers">Members that set the shifts.</param>
/// <param name="Members">Members of the ensemble that the answer is checked with.</param>
public sealed record PlanConfidence(
    double Probability,
    ParameterSpread? Parameters = null,
    InputSpread? Inputs = null,
    PlanMeasurement? Measurement = null,
    int Seed = 1,
    int ShiftMembers = 300,
    int Members = 1000);

/// <summary>Everything a plan needs to know.</summary>
public sealed record PlanRequest
{
    /// <summary>Hot metal.</summary>
    public required PlanMaterial HotMetal { get; init; }

    /// <summary>Scrap classes, at most <see cref="HeatInput.MaxScrapClasses"/>.</summary>
    public required IReadOnlyList<PlanMaterial> Scrap { get; init; }

    /// <summary>Fluxes, coolants and heating agents, at most <see cref="HeatInput.MaxFluxes"/>.</summary>
    public required IReadOnlyList<PlanMaterial> Additions { get; init; }

    /// <summary>Oxygen, Nm³.</summary>
    public required PlanMaterial Oxygen { get; init; }

    /// <summary>Makes the model's input from amounts. Must be a pure function.</summary>
    public required Func<PlanDecision, HeatInput> Build { get; init; }

    /// <summary>Limits, at most one for each quantity.</summary>
    public required IReadOnlyList<PlanLimit> Limits { get; init; }

    /// <summary>What is made small or large.</summary>
    public PlanObjective Objective { get; init; } = PlanObjective.Cost;

    /// <summary>How sure the plan shall be; null: the parameters and weights are taken as exact.</summary>
    public PlanConfidence? Confidence { get; init; }

    /// <summary>Parameters of the model.</summary>
    public ModelParameters Parameters { get; init; } = ModelParameters.Default;

    /// <summary>
    /// Share of oxygen by which scrap is to be molten as <see cref="PlanQuantity.UnmeltedScrapLate"/> limits, %. A plan with
    /// confidence moves it to the in-blow measurement when the measurement would else tell too little.
    /// </summary>
    public double ScrapMoltenByPercent { get; init; } = 90;

    /// <summary>All materials in the order of the decision vector: hot metal, scrap, additions, oxygen.</summary>
    internal IReadOnlyList<PlanMaterial> Materials => [HotMetal, .. Scrap, .. Additions, Oxygen];

    internal PlanDecision Decision(double[] x) => new(
        x[0], x[1..(1 + Scrap.Count)], x[(1 + Scrap.Count)..^1], x[^1]);

    internal double[] Vector(PlanDecision d) => [d.HotMetalKg, .. d.ScrapKg, .. d.AdditionsKg, d.OxygenNm3];

    /// <exception cref="PlanRequestException">Something contradicts itself; the message names field, value and mend.</exception>
    internal void Validate()
    {
        if (Scrap.Count > HeatInput.MaxScrapClasses)
        {
            throw new PlanRequestException($"The plan may choose among {Scrap.Count} scrap classes; the model takes {HeatInput.MaxScrapClasses}. Leave some out.");
        }

        if (Additions.Count > HeatInput.MaxFluxes)
        {
            throw new PlanRequestException($"The plan may choose among {Additions.Count} additions; the model takes {HeatInput.MaxFluxes}. Leave some out.");
        }

        foreach (PlanMaterial m in Materials)
        {
            Check.InRange(m.Least, 0, 1e6, "kg or Nm3", $"least {m.Name}");
            Check.InRange(m.Most, m.Least, 1e9, "kg or Nm3", $"most {m.Name}");
            Check.InRange(m.Price, -100, 1000, "EUR per kg or Nm3", $"price of {m.Name}");
            Check.InRange(m.Co2, -100, 1000, "kg per kg or Nm3", $"CO2 of {m.Name}");
        }

        var seen = new HashSet<PlanQuantity>();
        foreach (PlanLimit l in Limits)
        {
            if (!seen.Add(l.Quantity))
            {
                throw new PlanRequestException($"{l.Quantity} is limited twice; give one limit with both ends.");
            }

            if (l.Least > l.Most)
            {
                throw new PlanRequestException($"{l.Quantity}: the least {l.Least:G6} lies above the most {l.Most:G6} {PlanQuantities.Unit(l.Quantity)}.");
            }

            if (l.Least is null && l.Most is null && l.Aim is null)
            {
                throw new PlanRequestException($"The limit on {PlanQuantities.Name(l.Quantity)} has neither least, most nor aim; give one.");
            }

            if (l.Aim is { } aim && (aim < l.Least || aim > l.Most))
            {
                throw new PlanRequestException($"{l.Quantity}: the aim {aim:G6} lies outside its own limits.");
            }
        }

        if (!seen.Contains(PlanQuantity.TappedMass) || !seen.Contains(PlanQuantity.EndTemperature) || !seen.Contains(PlanQuantity.Carbon))
        {
            throw new PlanRequestException("A plan needs limits on tapped mass, end temperature and carbon; add the missing one.");
        }

        Check.InRange(ScrapMoltenByPercent, 60, 99, "% of planned oxygen", "moment by which scrap is molten");
        if (Confidence is { } c)
        {
            Check.InRange(c.Probability, 0.5, 0.999, "", "confidence");
            Check.InRange(c.ShiftMembers, 50, 100_000, "members", "ensemble for the shifts");
            Check.InRange(c.Members, 50, 100_000, "members", "ensemble");
            if (c.Measurement is { } m)
            {
                Check.InRange(m.OxygenPercent, 50, ScrapMoltenByPercent - 0.5, "% of planned oxygen", "in-blow measurement");
                Check.InRange(m.TemperatureErrorK, 0.1, 100, "K", "error of the in-blow temperature");
                Check.InRange(m.CarbonErrorPercent, 0.001, 1, "mass %", "error of the in-blow carbon");
            }
        }
    }
}

/// <summary>A request for a plan that contradicts itself: a mistake of the caller, not an infeasible heat.</summary>
/// <param name="fault">Field, value, limit and mend.</param>
public sealed class PlanRequestException(string fault) : ArgumentException("Plan: " + fault);
