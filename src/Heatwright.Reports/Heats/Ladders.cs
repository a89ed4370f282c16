// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter.Charge;

namespace Heatwright.Reports.Heats;

/// <summary>Names of the rungs of an account.</summary>
public static class Ladders
{
    /// <summary>The name of a term; a material that is heated and decomposed has two.</summary>
    public static string Name(HeatTerm term)
    {
        ArgumentNullException.ThrowIfNull(term);
        return term.Kind == HeatTermKind.Calcination ? term.Name + ", decomposed" : term.Name;
    }
}
