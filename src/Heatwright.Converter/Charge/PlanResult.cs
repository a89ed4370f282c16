// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Blow;

namespace Heatwright.Converter.Charge;

/// <summary>What came of planning: <see cref="PlanFound"/> or <see cref="PlanInfeasible"/>, never something between.</summary>
/// <param name="Work">What it took.</param>
public abstract record PlanResult(PlanWork Work);

/// <summary>How much was computed.</summary>
/// <param name="Iterations">Linear programs solved.</param>
/// <param name="Blows">Heats blown by the model, ensembles included.</param>
public sealed record PlanWork(int Iterations, int Blows);

/// <summary>A plan that keeps every limit in the full model.</summary>
/// <param name="Decision">Amounts.</param>
/// <param name="Heat">The heat as the model takes it.</param>
/// <param name="Blow">How it is expected to end.</param>
/// <param name="Rows">Every limit with what is expected.</param>
/// <param name="Costs">Cost, CO2, scrap.</param>
/// <param name="Chances">Probabilities from the ensemble; null when no confidence was asked for.</param>
/// <param name="Work">What it took.</param>
public sealed record PlanFound(
    PlanDecision Decision,
    HeatInput Heat,
    BlowResult Blow,
    IReadOnlyList<PlanRow> Rows,
    PlanCosts Costs,
    PlanChances? Chances,
    PlanWork Work) : PlanResult(Work);

/// <summary>Why there is no plan.</summary>
/// <param name="Because">Limits that stand against each other, the worst first.</param>
/// <param name="Reliefs">What would free it, each by itself, checked by planning again with it.</param>
/// <param name="NearestMiss">Amounts with the least weighted violation: for the explanation, not for use.</param>
/// <param name="Rows">Every limit at the nearest miss.</param>
/// <param name="Chances">When confidence is what cannot be had: what the ensemble gives; else null.</param>
/// <param name="Work">What it took.</param>
public sealed record PlanInfeasible(
    IReadOnlyList<PlanConflict> Because,
    IReadOnlyList<PlanRelief> Reliefs,
    PlanDecision NearestMiss,
    IReadOnlyList<PlanRow> Rows,
    PlanChances? Chances,
    PlanWork Work) : PlanResult(Work);

/// <summary>A limit with what the plan gives.</summary>
/// <param name="Limit">The limit.</param>
/// <param name="Value">What the full model expects.</param>
/// <param name="NominalLeast">Least value that the expectation may have, the shift for confidence included.</param>
/// <param name="NominalMost">Greatest value that the expectation may have.</param>
/// <param name="Violation">By how much the expectation misses that range, in the quantity's unit; positive above, negative below, zero inside.</param>
public sealed record PlanRow(PlanLimit Limit, double Value, double NominalLeast, double NominalMost, double Violation);

/// <summary>What a plan costs.</summary>
/// <param name="CostEur">Hot metal, scrap, additions and oxygen, EUR.</param>
/// <param name="Co2Kg">CO2 behind the materials and out of the vessel (all carbon in the gas counted as CO2), kg.</param>
/// <param name="VesselCo2Kg">Of it out of the vessel, kg.</param>
/// <param name="ScrapKg">Scrap, kg.</param>
public sealed record PlanCosts(double CostEur, double Co2Kg, double VesselCo2Kg, double ScrapKg);

/// <summary>A limit that cannot be kept together with the others.</summary>
/// <param name="What">Quantity or material.</param>
/// <param name="Violation">Amount by which it is missed at the nearest miss; zero for a limit that is kept but stands in the way.</param>
/// <param name="Unit">Unit.</param>
/// <param name="Text">A sentence.</param>
public sealed record PlanConflict(string What, double Violation, string Unit, string Text);

/// <summary>A change that makes the plan possible.</summary>
/// <param name="What">Quantity or material changed.</param>
/// <param name="Amount">By how much, in the unit.</param>
/// <param name="Unit">Unit.</param>
/// <param name="Text">A sentence.</param>
public sealed record PlanRelief(string What, double Amount, string Unit, string Text);

/// <summary>Probabilities of a plan by the ensemble.</summary>
/// <param name="Asked">Probability asked for each window.</param>
/// <param name="Windows">By window.</param>
/// <param name="JointWithout">All windows at once, without an in-blow measurement.</param>
/// <param name="JointWith">All windows at once after the in-blow measurement and its correction; NaN without one.</param>
/// <param name="Members">Members of the ensemble.</param>
public sealed record PlanChances(
    double Asked, IReadOnlyList<PlanChance> Windows, double JointWithout, double JointWith, int Members);

/// <summary>Probability of one window.</summary>
/// <param name="Quantity">Quantity.</param>
/// <param name="Without">Probability without an in-blow measurement.</param>
/// <param name="With">Probability after the in-blow correction; equal to the other where it changes nothing; NaN without a measurement.</param>
/// <param name="Mean">Mean of the members (without a measurement), in the quantity's unit.</param>
/// <param name="StandardDeviation">Their standard deviation, without a measurement.</param>
/// <param name="StandardDeviationWith">Standard deviation left by the measurement; NaN without one.</param>
public sealed record PlanChance(
    PlanQuantity Quantity, double Without, double With, double Mean, double StandardDeviation, double StandardDeviationWith)
{
    /// <summary>The probability that counts.</summary>
    public double Probability => double.IsNaN(With) ? Without : With;
}
