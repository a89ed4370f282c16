// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry;

/// <summary>Constants that more than one formula needs.</summary>
public static class PhysicalConstants
{
    /// <summary>Molar gas constant, J/mol.K. Source: CODATA 2018 (exact).</summary>
    public const double GasConstant = 8.314462618;

    /// <summary>Reference temperature of absolute enthalpies, K.</summary>
    public const double ReferenceK = 298.15;

    /// <summary>0 °C in kelvin.</summary>
    public const double ZeroCelsiusK = 273.15;

    /// <summary>One standard atmosphere in Pa.</summary>
    public const double StandardAtmospherePa = 101_325;

    /// <summary>Volume of one mole of ideal gas at 0 °C and 101.325 kPa, m³/mol: the normal cubic metre of this trade.</summary>
    public const double NormalMolarVolume = GasConstant * ZeroCelsiusK / StandardAtmospherePa;
}
