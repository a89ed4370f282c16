// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;
using Heatwright.Shop;
using BlowPoint = Heatwright.Converter.Blow.BlowPoint;

namespace Heatwright.Reports.Heats;

/// <summary>The share of equally likely outcomes that lie inside what the order asks for.</summary>
/// <param name="All">Temperature, carbon and every limited element at once.</param>
/// <param name="Window">Temperature and carbon at once.</param>
/// <param name="Temperature">Temperature alone.</param>
/// <param name="Carbon">Carbon alone.</param>
/// <param name="Elements">Each limited element alone.</param>
public sealed record Outlook(double All, double Window, double Temperature, double Carbon, IReadOnlyDictionary<Element, double> Elements)
{
    /// <summary>Counts outcomes.</summary>
    public static Outlook Of(Order order, IReadOnlyList<BlowPoint> ends)
    {
        ArgumentNullException.ThrowIfNull(order);
        ArgumentNullException.ThrowIfNull(ends);
        double Share(Func<BlowPoint, bool> inside) => ends.Count(inside) / (double)ends.Count;
        bool Temperature(BlowPoint p) => order.TemperatureK.Holds(p.TemperatureK);
        bool Carbon(BlowPoint p) => order.CarbonPercent.Holds(p.C);
        KeyValuePair<Element, Limits>[] limited = [.. order.EndPercent.Where(e => Percent(ends[0], e.Key) is not null).OrderBy(e => e.Key)];
        bool Holds(BlowPoint p, KeyValuePair<Element, Limits> limit) => limit.Value.Holds(Percent(p, limit.Key)!.Value);
        return new Outlook(
            Share(p => Temperature(p) && Carbon(p) && Array.TrueForAll(limited, l => Holds(p, l))),
            Share(p => Temperature(p) && Carbon(p)),
            Share(Temperature),
            Share(Carbon),
            limited.ToDictionary(l => l.Key, l => Share(p => Holds(p, l))));
    }

    /// <summary>The element in the metal, mass %; null where the model does not follow it.</summary>
    public static double? Percent(BlowPoint point, Element element)
    {
        ArgumentNullException.ThrowIfNull(point);
        return element switch
        {
            Element.C => point.C,
            Element.Si => point.Si,
            Element.Mn => point.Mn,
            Element.P => point.P,
            Element.S => point.S,
            Element.Ti => point.Ti,
            Element.V => point.V,
            Element.Cr => point.Cr,
            Element.Cu => point.Cu,
            Element.Ni => point.Ni,
            Element.Mo => point.Mo,
            Element.Sn => point.Sn,
            Element.N => point.NitrogenPpm / 1e4,
            _ => null,
        };
    }
}
