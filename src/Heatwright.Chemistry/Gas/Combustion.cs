// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry;

/// <summary>A gas stream into a flame.</summary>
/// <param name="Gas">Composition.</param>
/// <param name="Moles">Moles (any common unit).</param>
/// <param name="TemperatureK">Temperature, K.</param>
public readonly record struct GasFeed(GasMixture Gas, double Moles, double TemperatureK);

/// <summary>A gas after reaction.</summary>
/// <param name="Gas">Composition.</param>
/// <param name="Moles">Moles, in the unit of the streams.</param>
/// <param name="TemperatureK">Temperature, K.</param>
public readonly record struct CombustionResult(GasMixture Gas, double Moles, double TemperatureK);

/// <summary>
/// Chemical equilibrium of C–H–O–N–Ar–S gas over CO, CO2, H2, H2O, O2 and OH, with N2, Ar and SO2 as bystanders, and the adiabatic
/// temperature that goes with it. O, H and NO are left out: that makes stoichiometric flames in air up to about 15 K too hot, flames
/// in oxygen
/// more (above about 2800 K read the result as an upper bound). Soot is not formed: there must be at least as much oxygen as carbon.
/// Constants from the NASA-9 Gibbs energies.
/// </summary>
public static class Combustion
{
    private const double LeastK = 298.15;
    private const double MostK = 4500;

    /// <summary>Equilibrium composition at temperature and pressure.</summary>
    /// <param name="feed">Gas before reaction.</param>
    /// <param name="moles">Moles of it.</param>
    /// <param name="temperatureK">Temperature, K, 298.15–4500.</param>
    /// <param name="pressurePa">Pressure, Pa.</param>
    /// <exception cref="ChemistryRangeException">Temperature or pressure is out of range, or there is less oxygen than carbon.</exception>
    public static CombustionResult Equilibrium(
        GasMixture feed, double moles, double temperatureK, double pressurePa = PhysicalConstants.StandardAtmospherePa)
    {
        ArgumentNullException.ThrowIfNull(feed);
        ChemistryRangeException.Require(moles, double.Epsilon, double.MaxValue, "mol", "moles of gas");
        ChemistryRangeException.Require(temperatureK, LeastK, MostK, "K", "temperature of gas equilibrium");
        double p = ChemistryRangeException.Require(pressurePa, 10, 1e8, "Pa", "pressure of gas equilibrium") / 1e5;

        // Atoms per mole of feed.
        double carbon = feed[GasSpecies.CO] + feed[GasSpecies.CO2] + feed[GasSpecies.CH4];
        double hydrogen = (2 * (feed[GasSpecies.H2] + feed[GasSpecies.H2O])) + (4 * feed[GasSpecies.CH4]) + feed[GasSpecies.OH];
        double oxygen = feed[GasSpecies.CO] + feed[GasSpecies.H2O] + feed[GasSpecies.OH] + (2 * (feed[GasSpecies.CO2] + feed[GasSpecies.O2]));
        double bystanders = feed[GasSpecies.N2] + feed[GasSpecies.Ar] + feed[GasSpecies.SO2];
        if (carbon + hydrogen == 0 || oxygen == 0)
        {
            return new CombustionResult(feed, moles, temperatureK);
        }

        ChemistryRangeException.Require(
            oxygen, carbon * (1 - 1e-12), double.MaxValue, "mol per mol of gas", "oxygen atoms against carbon atoms (soot is not modelled)");
        double k1 = Constant(temperatureK, GasSpecies.CO2, (GasSpecies.CO, 1), (GasSpecies.O2, 0.5));
        double k2 = Constant(temperatureK, GasSpecies.H2O, (GasSpecies.H2, 1), (GasSpecies.O2, 0.5));
        double k3 = Constant(temperatureK, GasSpecies.OH, (GasSpecies.H2, 0.5), (GasSpecies.O2, 0.5));

        // One unknown: z = √p_O2 (bar). Everything else follows from the carbon and hydrogen balances; the oxygen balance rises with z.
        var state = new State();
        double Residual(double logZ)
        {
            double z = Math.Exp(logZ);
            state.Solve(z, p, carbon, hydrogen, bystanders, k1, k2, k3);
            return state.OxygenAtoms / oxygen - 1;
        }

        double high = 0.5 * Math.Log(p * (1 - 1e-12));
        double logRoot = RootSearch.Increasing(Residual, -150, high);
        state.Solve(Math.Exp(logRoot), p, carbon, hydrogen, bystanders, k1, k2, k3);
        var gas = new GasMixture(
            (GasSpecies.CO, state.CO), (GasSpecies.CO2, state.CO2), (GasSpecies.H2, state.H2), (GasSpecies.H2O, state.H2O), (GasSpecies.OH, state.OH),
            (GasSpecies.O2, state.O2), (GasSpecies.N2, feed[GasSpecies.N2]), (GasSpecies.Ar, feed[GasSpecies.Ar]), (GasSpecies.SO2, feed[GasSpecies.SO2]));
        return new CombustionResult(gas, moles * (state.Total + bystanders), temperatureK);
    }

    /// <summary>
    /// Temperature and composition after streams mix and burn to equilibrium at constant pressure, less a heat taken out.
    /// </summary>
    /// <param name="streams">Fuel, oxidant, diluent.</param>
    /// <param name="pressurePa">Pressure, Pa.</param>
    /// <param name="heatRemovedJ">Heat taken out, J per the streams' mole unit.</param>
    /// <exception cref="ChemistryRangeException">
    /// The mixture would end below 298.15 K or above 4500 K, or there is less oxygen than carbon.
    /// </exception>
    public static CombustionResult Adiabatic(
        IReadOnlyList<GasFeed> streams, double pressurePa = PhysicalConstants.StandardAtmospherePa, double heatRemovedJ = 0)
    {
        ArgumentNullException.ThrowIfNull(streams);
        double enthalpy = streams.Sum(s => s.Moles * s.Gas.Enthalpy(s.TemperatureK)) - heatRemovedJ;
        double moles = streams.Sum(s => s.Moles);
        GasMixture feed = GasMixture.Mix(streams.Select(s => (s.Gas, s.Moles)));
        double Surplus(double t)
        {
            CombustionResult r = Equilibrium(feed, moles, t, pressurePa);
            return (r.Moles * r.Gas.Enthalpy(t)) - enthalpy;
        }

        double lowest = Surplus(LeastK);
        double highest = Surplus(MostK);
        ChemistryRangeException.Require(enthalpy, enthalpy + lowest, enthalpy + highest, "J", "enthalpy of the burning gas");
        double temperature = RootSearch.Increasing(Surplus, LeastK, MostK);
        return Equilibrium(feed, moles, temperature, pressurePa);
    }

    private static double Constant(double t, GasSpecies product, params ReadOnlySpan<(GasSpecies Species, double Moles)> from)
    {
        double gibbs = GasMixture.SubstanceOf(product).Gibbs(t);
        foreach ((GasSpecies species, double n) in from)
        {
            gibbs -= n * GasMixture.SubstanceOf(species).Gibbs(t);
        }

        return Math.Exp(-gibbs / (PhysicalConstants.GasConstant * t));
    }

    /// <summary>Moles per mole of feed at a given √p_O2.</summary>
    private sealed class State
    {
        public double CO { get; private set; }

        public double CO2 { get; private set; }

        public double H2 { get; private set; }

        public double H2O { get; private set; }

        public double OH { get; private set; }

        public double O2 { get; private set; }

        public double Total => CO + CO2 + H2 + H2O + OH + O2;

        public double OxygenAtoms => CO + H2O + OH + (2 * (CO2 + O2));

        public void Solve(double z, double p, double carbon, double hydrogen, double bystanders, double k1, double k2, double k3)
        {
            // φ = moles per bar. φ (p − p_O2 − p_OH/2) = carbon + bystanders + hydrogen/2; p_OH depends weakly on φ, so iterate.
            double rest = carbon + bystanders + (0.5 * hydrogen);
            double phi = rest / (p - (z * z));
            double pHydroxyl = 0;
            double pHydrogen = 0;
            for (int i = 0; i < 60; i++)
            {
                // 2 (1 + K2 z) y² + K3 z y = hydrogen/φ with y = √p_H2.
                double a = 2 * (1 + (k2 * z));
                double b = k3 * z;
                double c = hydrogen / phi;
                double y = 2 * c / (b + Math.Sqrt((b * b) + (4 * a * c)));
                y = c == 0 ? 0 : y;
                pHydrogen = y * y;
                pHydroxyl = k3 * z * y;
                double next = rest / Math.Max(p - (z * z) - (0.5 * pHydroxyl), 1e-12 * p);
                bool done = Math.Abs(next - phi) <= 1e-15 * next;
                phi = next;
                if (done)
                {
                    break;
                }
            }

            CO2 = carbon * (k1 * z) / (1 + (k1 * z));
            CO = carbon / (1 + (k1 * z));
            H2 = phi * pHydrogen;
            H2O = H2 * k2 * z;
            OH = phi * pHydroxyl;
            O2 = phi * z * z;
        }
    }
}
