// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry.Slag;

/// <summary>
/// Cations of the quadratic formalism, in the row order of its tables. One oxide per cation: FeO, FeO1.5, CaO, MgO, MnO, SiO2, PO2.5,
/// TiO2, AlO1.5.
/// </summary>
public enum SlagCation
{
    /// <summary>Fe²⁺, as FeO.</summary>
    Fe2,
    /// <summary>Fe³⁺, as FeO1.5.</summary>
    Fe3,
    /// <summary>Ca²⁺, as CaO.</summary>
    Ca,
    /// <summary>Mg²⁺, as MgO.</summary>
    Mg,
    /// <summary>Mn²⁺, as MnO.</summary>
    Mn,
    /// <summary>Si⁴⁺, as SiO2.</summary>
    Si,
    /// <summary>P⁵⁺, as PO2.5.</summary>
    P,
    /// <summary>Ti⁴⁺, as TiO2.</summary>
    Ti,
    /// <summary>Al³⁺, as AlO1.5.</summary>
    Al,
}
