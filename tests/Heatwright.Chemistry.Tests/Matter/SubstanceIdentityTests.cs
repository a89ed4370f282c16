// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry.Tests;

/// <summary>What thermodynamics demands of every phase set and substance, whatever its source.</summary>
public class SubstanceIdentityTests
{
    public static TheoryData<string> Ids => [.. Substances.Ids.Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Ids))]
    public void Gibbs_energy_is_enthalpy_less_temperature_times_entropy(string id)
    {
        foreach ((Substance s, double t) in Points(id).Where(p => p.Substance.PhaseAt(p.TemperatureK).HasEntropy))
        {
            Assert.Equal(s.Enthalpy(t) - (t * s.Entropy(t)), s.Gibbs(t), 1e-6 * Math.Abs(s.Gibbs(t)));
        }
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void Heat_capacity_is_the_slope_of_enthalpy(string id)
    {
        foreach ((Substance s, double t) in Points(id))
        {
            const double Step = 0.05;
            double slope = (s.Enthalpy(t + Step) - s.Enthalpy(t - Step)) / (2 * Step);
            Assert.Equal(s.HeatCapacity(t), slope, 1e-4 * Math.Abs(slope));
        }
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void Heat_capacity_over_temperature_is_the_slope_of_entropy(string id)
    {
        foreach ((Substance s, double t) in Points(id).Where(p => p.Substance.PhaseAt(p.TemperatureK).HasEntropy))
        {
            const double Step = 0.05;
            double slope = (s.Entropy(t + Step) - s.Entropy(t - Step)) / (2 * Step);
            Assert.Equal(s.HeatCapacity(t) / t, slope, 1e-4 * Math.Abs(slope));
        }
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void Heat_capacity_is_positive_and_enthalpy_rises(string id)
    {
        double last = double.NegativeInfinity;
        foreach ((Substance s, double t) in Points(id))
        {
            Assert.True(s.HeatCapacity(t) > 2, $"Cp of {id} at {t:F1} K is {s.HeatCapacity(t)}");
            Assert.True(s.Enthalpy(t) > last, $"H of {id} falls at {t:F1} K");
            last = s.Enthalpy(t);
        }
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void Enthalpy_and_entropy_are_continuous_at_the_joints_of_a_set(string id)
    {
        foreach (PhaseSet phase in Substances.Get(id).Phases)
        {
            foreach (double joint in phase.JointsK)
            {
                double jump = phase.Enthalpy(joint) - phase.Enthalpy(Math.BitDecrement(joint));
                double heat = phase.InternalTransitions.FirstOrDefault(t => t.AtK == joint).HeatJPerMol;
                Assert.True(Math.Abs(jump - heat) < 30, $"{phase.Id} jumps by {jump:F2} J/mol at {joint} K");
                if (phase.HasEntropy)
                {
                    double entropyJump = phase.Entropy(joint) - phase.Entropy(Math.BitDecrement(joint));
                    Assert.True(Math.Abs(entropyJump - (heat / joint)) < 0.1, $"entropy of {phase.Id} jumps by {entropyJump:F4} J/mol.K at {joint} K");
                }
            }
        }
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void Phases_of_a_substance_have_equal_Gibbs_energy_where_they_change(string id)
    {
        foreach (Transition change in Substances.Get(id).Transitions)
        {
            if (change.From.HasEntropy && change.To.HasEntropy)
            {
                double difference = change.To.Gibbs(change.AtK) - change.From.Gibbs(change.AtK);
                Assert.True(Math.Abs(difference) < 150, $"{change.From.Id} to {change.To.Id} at {change.AtK} K: Gibbs energies differ by {difference:F1} J/mol");
            }
        }
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void Temperatures_outside_the_data_are_refused_with_the_limits(string id)
    {
        Substance s = Substances.Get(id);
        foreach (double t in (double[])[s.MinimumK - 0.1, s.MaximumK + 0.1, double.NaN, double.PositiveInfinity, -1])
        {
            var e = Assert.Throws<ChemistryRangeException>(() => s.Enthalpy(t));
            Assert.Equal(s.MinimumK, e.Least);
            Assert.Equal(s.MaximumK, e.Most);
            Assert.Equal("K", e.Unit);
            Assert.Contains(id, e.Field, StringComparison.Ordinal);
            Assert.Throws<ChemistryRangeException>(() => s.HeatCapacity(t));
            Assert.ThrowsAny<Exception>(() => s.Gibbs(t));
        }
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void Every_phase_names_its_source(string id) =>
        Assert.All(Substances.Get(id).Phases, p => Assert.True(p.Source.Length > 20, p.Id));

    private static IEnumerable<(Substance Substance, double TemperatureK)> Points(string id)
    {
        Substance s = Substances.Get(id);
        double top = Math.Min(s.MaximumK, 3200);
        const int Count = 41;
        double[] edges = [.. s.Phases.SelectMany(p => p.JointsK), .. s.Transitions.Select(t => t.AtK)];
        for (int i = 0; i < Count; i++)
        {
            double t = s.MinimumK + 0.2 + ((top - s.MinimumK - 0.4) * i / (Count - 1));
            if (Array.TrueForAll(edges, e => Math.Abs(e - t) > 0.1))
            {
                yield return (s, t);
            }
        }
    }
}
