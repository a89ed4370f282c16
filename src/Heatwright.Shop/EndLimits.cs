// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;

namespace Heatwright.Shop;

/// <summary>Limits at the end of the blow from those of the ladle.</summary>
public static class EndLimits
{
    // Elements that no one takes out of the steel after the blow in an ordinary shop.
    private static readonly Element[] Kept = [Element.P, Element.S, Element.Cu, Element.Ni, Element.Cr, Element.Mo, Element.Sn, Element.Mn];

    /// <summary>
    /// What the order says, else the grade's most less the ladle pick-up. A least of the grade is met with alloys in the
    /// ladle and does not bind here.
    /// </summary>
    public static IReadOnlyDictionary<Element, Limits> From(
        Grade grade, IReadOnlyDictionary<Element, double> pickUpPercent, IReadOnlyDictionary<Element, Limits> order)
    {
        ArgumentNullException.ThrowIfNull(grade);
        ArgumentNullException.ThrowIfNull(pickUpPercent);
        ArgumentNullException.ThrowIfNull(order);
        var limits = new Dictionary<Element, Limits>(order);
        foreach (Element element in Kept)
        {
            if (!limits.ContainsKey(element) && grade.LadlePercent.TryGetValue(element, out Limits? ladle) && ladle.Most is { } most)
            {
                limits[element] = new Limits(null, Math.Max(0, most - pickUpPercent.GetValueOrDefault(element)));
            }
        }

        return limits;
    }
}
