// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry;

/// <summary>
/// A state of water or steam by IAPWS-IF97. Enthalpy and entropy count from the saturated liquid at the triple point, as steam tables
/// do, not from the elements.
/// </summary>
/// <param name="PressurePa">Pressure, Pa.</param>
/// <param name="TemperatureK">Temperature, K.</param>
/// <param name="SpecificVolume">Specific volume, m³/kg.</param>
/// <param name="Enthalpy">Specific enthalpy, J/kg.</param>
/// <param name="Entropy">Specific entropy, J/kg.K.</param>
/// <param name="InternalEnergy">Specific internal energy, J/kg.</param>
/// <param name="HeatCapacity">Isobaric heat capacity, J/kg.K; NaN for a wet state, where it has no meaning.</param>
/// <param name="SpeedOfSound">Speed of sound, m/s; NaN for a wet state.</param>
/// <param name="Region">IF97 region 1, 2, 3, or 4 for a wet state.</param>
/// <param name="VapourFraction">Mass fraction of vapour of a wet state; null for a single phase.</param>
public readonly record struct SteamState(
    double PressurePa,
    double TemperatureK,
    double SpecificVolume,
    double Enthalpy,
    double Entropy,
    double InternalEnergy,
    double HeatCapacity,
    double SpeedOfSound,
    int Region,
    double? VapourFraction = null);
