// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry;

/// <summary>Form of the heat-capacity equation of a phase set. The equations stand in the header of Data/species.json.</summary>
public enum ThermalModel
{
    /// <summary>Nine-coefficient NASA form (McBride, Zehe &amp; Gordon 2002).</summary>
    Nasa9,
    /// <summary>Seven-coefficient NASA form (McBride, Gordon &amp; Reno 1993).</summary>
    Nasa7,
    /// <summary>Shomate form of the NIST WebBook.</summary>
    Shomate,
    /// <summary>Sum of powers of T, integrated from a reference temperature.</summary>
    CpPower,
}
