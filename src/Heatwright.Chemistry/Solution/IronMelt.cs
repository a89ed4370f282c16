// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry;

/// <summary>Composition of liquid iron in mass % by element; iron is the remainder to 100 %. Immutable.</summary>
public sealed class IronMelt
{
    private readonly double[] _percent;

    /// <summary>Pure iron.</summary>
    public static IronMelt Pure { get; } = new([]);

    /// <param name="percent">Solutes, mass %. Those not named are zero.</param>
    /// <exception cref="ChemistryRangeException">A value is negative or not a number, or the sum exceeds 100 %.</exception>
    public IronMelt(params IEnumerable<(Element Element, double MassPercent)> percent)
    {
        ArgumentNullException.ThrowIfNull(percent);
        _percent = new double[AtomicWeights.Count];
        foreach ((Element element, double value) in percent)
        {
            if (element != Element.Fe)
            {
                _percent[(int)element] = ChemistryRangeException.Require(value, 0, 100, "mass %", element.ToString());
            }
        }

        double sum = ChemistryRangeException.Require(_percent.Sum(), 0, 100, "mass %", "sum of the solutes in iron");
        _percent[(int)Element.Fe] = 100 - sum;
    }

    /// <summary>Mass % of the element.</summary>
    public double this[Element element] => _percent[(int)element];

    /// <summary>Mass % of every element in the order of <see cref="Element"/>.</summary>
    public ReadOnlySpan<double> MassPercent => _percent;

    /// <summary>A copy with one solute changed; iron takes up the difference.</summary>
    /// <exception cref="ChemistryRangeException">As for the constructor.</exception>
    public IronMelt With(Element element, double massPercent) =>
        new(_percent.Select((p, i) => ((Element)i, (Element)i == element ? massPercent : p)));
}
