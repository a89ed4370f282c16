// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Shop.Units;

/// <summary>
/// The closed list of kinds and units. Gas volumes (Nm3) are at 0 °C and 101.325 kPa. A tonne is 1 000 kg.
/// Kinds without a field (energy, pressure, consumption) are known so that a message can say what was written by mistake.
/// </summary>
public static class Kinds
{
    /// <summary>Mass; base kg.</summary>
    public static readonly QuantityKind Mass = new("mass", "kg", "132 t", new Unit("t", 1000), new Unit("kg", 1));

    /// <summary>Temperature; base K.</summary>
    public static readonly QuantityKind Temperature = new(
        "temperature", "K", "1385 °C", new Unit("°C", 1, 273.15, "degC"), new Unit("K", 1));

    /// <summary>Difference of temperatures; base K.</summary>
    public static readonly QuantityKind TemperatureDifference = new(
        "temperature difference", "K", "6 K", new Unit("K", 1), new Unit("°C", 1, 0, "degC"));

    /// <summary>Mass %; base %. ppm is by mass.</summary>
    public static readonly QuantityKind MassPercent = new(
        "mass %", "mass %", "0.45 %", new Unit("%", 1, 0, "mass %", "% by mass"), new Unit("ppm", 1e-4));

    /// <summary>Volume % of a gas; base %.</summary>
    public static readonly QuantityKind VolumePercent = new(
        "volume %", "volume %", "99.5 vol %", new Unit("vol %", 1, 0, "volume %", "% by volume"));

    /// <summary>Share of a whole that the field names (planned oxygen, a planned flux, full opening, probability); base %.</summary>
    public static readonly QuantityKind Share = new("share", "%", "82 %", new Unit("%", 1));

    /// <summary>Relative uncertainty; base %.</summary>
    public static readonly QuantityKind RelativePercent = new(
        "% of the value", "% of the value", "0.5 % of value", new Unit("% of value", 1, 0, "% of the value"));

    /// <summary>Gas volume at 0 °C and 101.325 kPa; base Nm³.</summary>
    public static readonly QuantityKind GasVolume = new("gas volume", "Nm3", "8200 Nm3", new Unit("Nm3", 1));

    /// <summary>Gas flow; base Nm³/s.</summary>
    public static readonly QuantityKind GasFlow = new(
        "gas flow", "Nm3/s", "560 Nm3/min", new Unit("Nm3/min", 1 / 60.0), new Unit("Nm3/h", 1 / 3600.0), new Unit("Nm3/s", 1));

    /// <summary>Gas flow for each tonne of steel to be tapped; base Nm³/(t s).</summary>
    public static readonly QuantityKind SpecificGasFlow = new(
        "gas flow per tonne", "Nm3/(t s)", "3.3 Nm3/(t min)", new Unit("Nm3/(t min)", 1 / 60.0, 0, "Nm3/t/min", "Nm3/min/t"));

    /// <summary>Length; base m.</summary>
    public static readonly QuantityKind Length = new(
        "length", "m", "1.8 m", new Unit("m", 1), new Unit("cm", 0.01), new Unit("mm", 0.001));

    /// <summary>Time; base s.</summary>
    public static readonly QuantityKind Time = new(
        "time", "s", "2 min", new Unit("s", 1), new Unit("min", 60), new Unit("h", 3600));

    /// <summary>Volume of a vessel or box; base m³.</summary>
    public static readonly QuantityKind Volume = new("volume", "m3", "60 m3", new Unit("m3", 1));

    /// <summary>Density; base kg/m³.</summary>
    public static readonly QuantityKind Density = new(
        "density", "kg/m3", "950 kg/m3", new Unit("kg/m3", 1), new Unit("t/m3", 1000));

    /// <summary>Angle; base degrees.</summary>
    public static readonly QuantityKind Angle = new("angle", "degrees", "16 deg", new Unit("deg", 1, 0, "°", "degrees"));

    /// <summary>Heat transfer of a surface; base W/K.</summary>
    public static readonly QuantityKind HeatTransfer = new(
        "heat transfer", "W/K", "40 kW/K", new Unit("kW/K", 1000), new Unit("W/K", 1));

    /// <summary>Number of heats; base heats.</summary>
    public static readonly QuantityKind Heats = new("number of heats", "heats", "1450 heats", new Unit("heats", 1, 0, "heat"));

    /// <summary>Price by mass; base EUR/kg.</summary>
    public static readonly QuantityKind MassPrice = new(
        "price", "EUR/kg", "310 EUR/t", new Unit("EUR/t", 0.001), new Unit("EUR/kg", 1));

    /// <summary>Price by gas volume; base EUR/Nm³.</summary>
    public static readonly QuantityKind GasPrice = new("price of a gas", "EUR/Nm3", "0.09 EUR/Nm3", new Unit("EUR/Nm3", 1));

    /// <summary>CO2 put to the account of a material; base kg/kg.</summary>
    public static readonly QuantityKind MassCo2 = new(
        "CO2 factor", "kgCO2/kg", "1480 kgCO2/t",
        new Unit("kgCO2/t", 0.001), new Unit("tCO2/t", 1), new Unit("kgCO2/kg", 1));

    /// <summary>CO2 put to the account of a gas; base kg/Nm³.</summary>
    public static readonly QuantityKind GasCo2 = new("CO2 factor of a gas", "kgCO2/Nm3", "0.3 kgCO2/Nm3", new Unit("kgCO2/Nm3", 1));

    /// <summary>Pressure; base Pa.</summary>
    public static readonly QuantityKind Pressure = new(
        "pressure", "Pa", "11 bar", new Unit("bar", 1e5), new Unit("kPa", 1e3), new Unit("MPa", 1e6));

    /// <summary>Energy; base J.</summary>
    public static readonly QuantityKind Energy = new(
        "energy", "J", "120 MJ", new Unit("MJ", 1e6), new Unit("kWh", 3.6e6), new Unit("GJ", 1e9));

    /// <summary>Consumption for each tonne of steel; base kg/kg.</summary>
    public static readonly QuantityKind Consumption = new("consumption", "kg/kg", "48 kg/t", new Unit("kg/t", 0.001));

    /// <summary>Every kind, in the order in which an unknown unit is looked up.</summary>
    public static IReadOnlyList<QuantityKind> All { get; } =
    [
        Mass, Temperature, MassPercent, VolumePercent, RelativePercent, GasVolume, GasFlow, SpecificGasFlow, Length, Time,
        Volume, Density, Angle, HeatTransfer, Heats, MassPrice, GasPrice, MassCo2, GasCo2, Pressure, Energy, Consumption,
        TemperatureDifference, Share,
    ];

    /// <summary>
    /// Units that are understood only to be refused, with the accepted unit to write instead. Exact by definition
    /// (international yard and pound 1959; °F = 9/5 °C + 32).
    /// </summary>
    internal static IReadOnlyDictionary<string, (QuantityKind Kind, Unit Unit)> Foreign { get; } =
        new Dictionary<string, (QuantityKind, Unit)>(StringComparer.Ordinal)
        {
            ["°F"] = (Temperature, new Unit("°F", 5 / 9.0, 459.67)),
            ["degF"] = (Temperature, new Unit("°F", 5 / 9.0, 459.67)),
            ["F"] = (Temperature, new Unit("°F", 5 / 9.0, 459.67)),
            ["C"] = (Temperature, new Unit("°C", 1, 273.15)),
            ["lb"] = (Mass, new Unit("lb", 0.45359237)),
            ["lbs"] = (Mass, new Unit("lb", 0.45359237)),
            ["ton"] = (Mass, new Unit("short ton", 907.18474)),
            ["tons"] = (Mass, new Unit("short ton", 907.18474)),
            ["tonnes"] = (Mass, new Unit("t", 1000)),
            ["g"] = (Mass, new Unit("g", 0.001)),
            ["ft"] = (Length, new Unit("ft", 0.3048)),
            ["in"] = (Length, new Unit("in", 0.0254)),
            ["psi"] = (Pressure, new Unit("psi", 6894.757293168)),
        };
}
