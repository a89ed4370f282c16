// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;

namespace Heatwright.Converter.Gas;

/// <summary>Gas that comes out of the vessel's mouth.</summary>
/// <param name="Gas">Composition, wet.</param>
/// <param name="FlowNm3PerS">Flow, wet, Nm³/s at 0 °C and 101.325 kPa.</param>
/// <param name="TemperatureK">Temperature, K.</param>
public sealed record MouthGas(GasMixture Gas, double FlowNm3PerS, double TemperatureK);

/// <summary>What the fan and the cooled walls do.</summary>
/// <param name="SuctionNm3PerS">Cooled gas drawn by the fan, dry, Nm³/s. Constant: air at the skirt makes up what the vessel does not give.</param>
/// <param name="TransferWPerK">Heat transfer of hood and stack up to where the temperature is read, W/K: area × coefficient, radiation included.</param>
/// <param name="CoolantK">Wall temperature, K: boiling water of 2–4 MPa.</param>
/// <param name="AirK">Temperature of the air, K.</param>
/// <param name="HeldCombustionFactor">
/// With the skirt down and the hood's pressure held (suppressed combustion): oxygen of the air let in over what CO and H2 need. The fan then
/// draws no more than this asks. 0.05–0.15 is common practice (from memory). Null: the fan draws its full suction.
/// </param>
public sealed record HoodSettings(
    double SuctionNm3PerS, double TransferWPerK, double CoolantK = 500, double AirK = HeatInput.AmbientK, double? HeldCombustionFactor = null)
{
    /// <summary>The settings of a vessel's gas path.</summary>
    public static HoodSettings Of(Vessel vessel)
    {
        ArgumentNullException.ThrowIfNull(vessel);
        return new HoodSettings(vessel.SuctionNm3PerS, vessel.HoodTransferWPerK);
    }
}

/// <summary>Gas behind the cooled hood.</summary>
/// <param name="AirNm3PerS">Air drawn in at the skirt, Nm³/s.</param>
/// <param name="EscapedNm3PerS">Mouth gas that the fan does not take and that leaves at the skirt, Nm³/s. Above zero only when there is no air.</param>
/// <param name="CombustionFactor">Oxygen at hand (air and mouth) over what CO and H2 need; infinite where nothing burns.</param>
/// <param name="Wet">Composition, wet.</param>
/// <param name="WetNm3PerS">Flow, wet, Nm³/s.</param>
/// <param name="FlameK">Temperature after complete mixing and burning, before any cooling, K. Dissociation left out: an upper bound, up to about 450 K high near a factor of 1.</param>
/// <param name="TemperatureK">Temperature behind the cooled part, K.</param>
/// <param name="HeatToCoolantW">Heat given to the walls, W.</param>
public sealed record HoodGas(
    double AirNm3PerS,
    double EscapedNm3PerS,
    double CombustionFactor,
    GasMixture Wet,
    double WetNm3PerS,
    double FlameK,
    double TemperatureK,
    double HeatToCoolantW)
{
    /// <summary>Oxygen above which gas that holds CO must not be collected or sparked, volume % dry (common practice, from memory).</summary>
    public const double MostOxygenWithFuelPercent = 2;

    /// <summary>Share of a species in the dry gas, volume %.</summary>
    public double DryPercent(GasSpecies species) =>
        species == GasSpecies.H2O ? 0 : 100 * Wet[species] / (1 - Wet[GasSpecies.H2O]);

    /// <summary>Dry flow, Nm³/s.</summary>
    public double DryNm3PerS => WetNm3PerS * (1 - Wet[GasSpecies.H2O]);

    /// <summary>
    /// True when more than <see cref="MostOxygenWithFuelPercent"/> of oxygen stands beside enough CO and H2 to burn in air: mouth gas too cold to
    /// have burnt. A description of the mixed gas, not a clearance: local codes and the plant's procedures decide.
    /// </summary>
    public bool FuelWithOxygen =>
        DryPercent(GasSpecies.O2) > MostOxygenWithFuelPercent && Flammability.LowerLimitPercentInAir(Wet) is not null;
}

/// <summary>
/// Air at the skirt, combustion and cooling of the gas (correlations: handbook, chapter 13; oxygen needs and volumes are stoichiometric).
/// CO and H2 burn as far as oxygen goes, in proportion to their amounts: at hood temperatures the CO–O2 equilibrium lies on the side of
/// CO2 (log K above 3 below 1900 K) and only the split between CO and H2 would move with the water–gas shift. Mouth gas colder than
/// <see cref="IgnitionK"/> does not burn. The cooled part is a heat
/// exchanger against boiling water, T = T_w + (T_flame − T_w) exp(−UA/C), with C the mean heat capacity flow between the two temperatures
/// and one coefficient UA for radiation and convection together (number of transfer units, one stream at constant temperature: any
/// textbook of heat transfer, e.g. Incropera &amp; DeWitt, chapter 11).
/// </summary>
public static class Hood
{
    /// <summary>Ignition temperature of CO in air, K (609 °C, from memory; listed between 605 and 650 °C).</summary>
    public const double IgnitionK = 882;

    /// <summary>Gas behind the hood.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A flow, temperature or coefficient lies outside its range; the message names it.</exception>
    public static HoodGas Run(MouthGas mouth, HoodSettings settings)
    {
        ArgumentNullException.ThrowIfNull(mouth);
        ArgumentNullException.ThrowIfNull(settings);
        Check.InRange(mouth.FlowNm3PerS, 0, 500, "Nm3/s", "gas at the mouth");
        Check.InRange(mouth.TemperatureK, 250, 4500, "K", "temperature of the gas at the mouth");
        Check.InRange(settings.SuctionNm3PerS, 0.1, 1000, "Nm3/s", "suction of the fan");
        Check.InRange(settings.TransferWPerK, 0, 1e7, "W/K", "heat transfer of the hood");
        Check.InRange(settings.CoolantK, 273.15, 700, "K", "wall temperature of the hood");
        Check.InRange(settings.AirK, 220, 330, "K", "air temperature");

        GasMixture air = GasMixture.DryAir;
        double inflow = mouth.FlowNm3PerS;
        double fuel = inflow * (mouth.Gas[GasSpecies.CO] + mouth.Gas[GasSpecies.H2]);
        double need = 0.5 * fuel;
        bool burns = mouth.TemperatureK >= IgnitionK;
        double airFlow = AirFor(mouth, settings.SuctionNm3PerS, burns);
        if (settings.HeldCombustionFactor is { } held)
        {
            Check.InRange(held, 0, 10, "", "combustion factor held by the hood");
            airFlow = Math.Min(airFlow, held * need / air[GasSpecies.O2]);
        }

        double escaped = 0;
        if (airFlow < 0)
        {
            // The vessel gives more than the fan takes: what is taken has the mouth's composition, its own oxygen burnt.
            double dryAll = Burn(mouth.Gas, inflow, air, 0, burns).Where(s => s.Species != GasSpecies.H2O).Sum(s => s.Nm3);
            double share = settings.SuctionNm3PerS / dryAll;
            escaped = inflow * (1 - share);
            inflow *= share;
            airFlow = 0;
        }

        (GasSpecies Species, double Nm3)[] products = Burn(mouth.Gas, inflow, air, airFlow, burns);
        double wet = products.Sum(p => p.Nm3);
        var gas = new GasMixture(products.Select(p => (p.Species, p.Nm3)));
        double perNm3 = 1 / PhysicalConstants.NormalMolarVolume;
        double enthalpyIn = perNm3 * ((inflow > 0 ? inflow * mouth.Gas.Enthalpy(mouth.TemperatureK) : 0) + (airFlow * air.Enthalpy(settings.AirK)));
        double flow = wet * perNm3;
        double flame = gas.TemperatureAt(enthalpyIn / flow);
        double leaving = Cooled(gas, flow, flame, settings);
        double oxygen = (airFlow * air[GasSpecies.O2]) + (inflow * mouth.Gas[GasSpecies.O2]);
        return new HoodGas(
            airFlow,
            escaped,
            need > 0 ? oxygen / (0.5 * inflow * (mouth.Gas[GasSpecies.CO] + mouth.Gas[GasSpecies.H2])) : double.PositiveInfinity,
            gas,
            wet,
            flame,
            leaving,
            enthalpyIn - (flow * gas.Enthalpy(leaving)));
    }

    /// <summary>
    /// Air that makes the dry volume after burning equal to the suction, Nm³/s; negative when the vessel alone gives more. The dry volume
    /// rises with air on two straight pieces: oxygen short (each Nm³ of it turns 2 of fuel, CO keeps its volume, H2 leaves the dry gas)
    /// and oxygen in excess.
    /// </summary>
    private static double AirFor(MouthGas mouth, double suction, bool burns)
    {
        double x = GasMixture.DryAir[GasSpecies.O2];
        double co = mouth.FlowNm3PerS * mouth.Gas[GasSpecies.CO];
        double h2 = mouth.FlowNm3PerS * mouth.Gas[GasSpecies.H2];
        double o2 = mouth.FlowNm3PerS * mouth.Gas[GasSpecies.O2];
        double dry = mouth.FlowNm3PerS * (1 - mouth.Gas[GasSpecies.H2O]);
        if (!burns)
        {
            return suction - dry;
        }

        double fuel = co + h2;
        double excess = suction - dry + (0.5 * fuel) + h2;
        if (fuel == 0 || (excess * x) + o2 >= 0.5 * fuel)
        {
            return excess;
        }

        double hydrogenShare = h2 / fuel;
        double fixedPart = dry - o2 - (2 * hydrogenShare * o2);
        double perAir = 1 - x - (2 * hydrogenShare * x);
        return (suction - fixedPart) / perAir;
    }

    private static (GasSpecies Species, double Nm3)[] Burn(GasMixture mouth, double mouthNm3, GasMixture air, double airNm3, bool burns)
    {
        double Of(GasSpecies s) => (mouthNm3 * mouth[s]) + (airNm3 * air[s]);
        double fuel = Of(GasSpecies.CO) + Of(GasSpecies.H2);
        double burnt = burns ? Math.Min(fuel, 2 * Of(GasSpecies.O2)) : 0;
        double share = fuel > 0 ? burnt / fuel : 0;
        double co = Of(GasSpecies.CO) * share;
        double h2 = Of(GasSpecies.H2) * share;
        return
        [
            (GasSpecies.CO, Of(GasSpecies.CO) - co),
            (GasSpecies.CO2, Of(GasSpecies.CO2) + co),
            (GasSpecies.H2, Of(GasSpecies.H2) - h2),
            (GasSpecies.H2O, Of(GasSpecies.H2O) + h2),
            (GasSpecies.O2, Math.Max(0, Of(GasSpecies.O2) - (0.5 * burnt))),
            (GasSpecies.N2, Of(GasSpecies.N2)),
            (GasSpecies.Ar, Of(GasSpecies.Ar)),
            (GasSpecies.CH4, Of(GasSpecies.CH4)),
            (GasSpecies.SO2, Of(GasSpecies.SO2)),
        ];
    }

    private static double Cooled(GasMixture gas, double molPerS, double flameK, HoodSettings settings)
    {
        double from = gas.Enthalpy(flameK);
        double leaving = settings.CoolantK + ((flameK - settings.CoolantK) * Math.Exp(-settings.TransferWPerK / (molPerS * gas.HeatCapacity(flameK))));
        for (int i = 0; i < 40; i++)
        {
            double span = flameK - leaving;
            double capacity = Math.Abs(span) > 1e-6 ? molPerS * (from - gas.Enthalpy(leaving)) / span : molPerS * gas.HeatCapacity(flameK);
            double next = settings.CoolantK + ((flameK - settings.CoolantK) * Math.Exp(-settings.TransferWPerK / capacity));
            bool done = Math.Abs(next - leaving) < 1e-9 * next;
            leaving = next;
            if (done)
            {
                break;
            }
        }

        return leaving;
    }
}
