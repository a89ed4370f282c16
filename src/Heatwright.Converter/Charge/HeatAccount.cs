// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Blow;

namespace Heatwright.Converter.Charge;

/// <summary>One line of the heat account.</summary>
/// <param name="Kind">What kind of term.</param>
/// <param name="Name">Name, with the material where it belongs to one.</param>
/// <param name="MJ">Heat given to the bath (positive) or taken from it, MJ.</param>
/// <param name="Kelvin">The same as change of end temperature, K.</param>
public sealed record HeatTerm(HeatTermKind Kind, string Name, double MJ, double Kelvin);

/// <summary>Kinds of lines of the heat account.</summary>
public enum HeatTermKind
{
    /// <summary>Oxidation of an element of the bath by cold oxygen.</summary>
    Oxidation,
    /// <summary>Silicate and phosphate formed in the slag.</summary>
    SlagFormation,
    /// <summary>Scrap heated, molten and brought to hot-metal temperature.</summary>
    Scrap,
    /// <summary>An addition heated (and, for ore and scale, split).</summary>
    Addition,
    /// <summary>Carbonate and hydroxide decomposed.</summary>
    Calcination,
    /// <summary>Retained and carried-over slag brought to hot-metal temperature.</summary>
    RetainedSlag,
    /// <summary>Gas that leaves hotter or colder than the hot metal was.</summary>
    Gas,
    /// <summary>Dust and spray.</summary>
    Dust,
    /// <summary>Heat taken up by the lining.</summary>
    Lining,
    /// <summary>Losses through mouth, lance and shell.</summary>
    Loss,
    /// <summary>Scrap and additions not yet hot or molten at the end: heat not spent.</summary>
    NotDissolved,
    /// <summary>Slag hotter than metal at the end.</summary>
    SlagHotter,
    /// <summary>Rest: steam, nitrogen, sulphur, and additions still cold when a blow is broken off.</summary>
    Other,
}

/// <summary>Where the oxygen went.</summary>
/// <param name="Name">What it oxidised.</param>
/// <param name="Nm3">O2, Nm³.</param>
public sealed record OxygenTerm(string Name, double Nm3);

/// <summary>Where the iron went.</summary>
/// <param name="Name">Place.</param>
/// <param name="Kg">Iron, kg; what came in is positive under its source, what was found is negative.</param>
public sealed record IronTerm(string Name, double Kg);

/// <summary>
/// Where the temperature comes from. The zero is the hot metal as poured: everything else is what the bath gained or lost
/// against it, with products counted at hot-metal temperature. The kelvins of all terms and the hot-metal temperature add up
/// to the end temperature exactly.
/// </summary>
/// <remarks>
/// Uses the same enthalpies as the blow (<see cref="Enthalpies"/>), so that nothing is fitted: oxidation of carbon, for
/// instance, is C dissolved at hot-metal temperature and cold oxygen to CO at hot-metal temperature. Kelvin per MJ follows
/// from the heat capacity of the metal and slag found at the end.
/// </remarks>
/// <param name="ZeroK">Temperature of the hot metal as poured, K.</param>
/// <param name="HotMetalMJ">Its heat against 25 °C (elements), MJ, for information: it is the zero.</param>
/// <param name="BathMJPerK">Heat capacity of metal and slag at the end, MJ/K.</param>
/// <param name="EndK">Temperature of the metal at the end, K.</param>
/// <param name="Terms">Lines, sources first.</param>
/// <param name="Oxygen">Where the oxygen blown went.</param>
/// <param name="Iron">Where the iron came from and went.</param>
public sealed record HeatAccount(
    double ZeroK,
    double HotMetalMJ,
    double BathMJPerK,
    double EndK,
    IReadOnlyList<HeatTerm> Terms,
    IReadOnlyList<OxygenTerm> Oxygen,
    IReadOnlyList<IronTerm> Iron)
{
    /// <summary>Sum of the terms of a kind, K.</summary>
    public double Kelvin(HeatTermKind kind) => Terms.Where(t => t.Kind == kind).Sum(t => t.Kelvin);

    /// <summary>The account of a finished heat.</summary>
    /// <param name="heat">The heat as it was run.</param>
    /// <param name="result">Its result.</param>
    /// <param name="parameters">The parameters it was run with.</param>
    public static HeatAccount Of(HeatInput heat, BlowResult result, ModelParameters? parameters = null)
    {
        ArgumentNullException.ThrowIfNull(heat);
        ArgumentNullException.ThrowIfNull(result);
        return new HeatAccountant(heat, result, parameters ?? ModelParameters.Default).Account();
    }
}

/// <summary>Gas through the mouth over a whole heat, kmol.</summary>
public sealed record GasTotals(double CO, double CO2, double O2, double H2, double H2O, double N2, double Ar)
{
    internal static GasTotals Of(LanePack pack, int lane)
    {
        double At(int i) => LanePack.Get(pack.State, i, lane);
        return new GasTotals(
            At(BlowState.GasCO), At(BlowState.GasCO2), At(BlowState.GasO2), At(BlowState.GasH2), At(BlowState.GasH2O), At(BlowState.GasN2), At(BlowState.GasAr));
    }
}
