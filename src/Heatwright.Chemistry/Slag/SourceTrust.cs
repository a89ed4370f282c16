// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry.Slag;

/// <summary>How a coefficient came here. It travels with the coefficient so that a reader sees what it rests on.</summary>
public enum SourceTrust
{
    /// <summary>Read in the paper, its abstract, or a work that carries it.</summary>
    Published,
    /// <summary>Derived here from named facts.</summary>
    Derived,
    /// <summary>From memory of the named source, not confirmed against it.</summary>
    FromMemory,
}
