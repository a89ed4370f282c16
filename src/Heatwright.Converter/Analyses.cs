// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry;

namespace Heatwright.Converter;

/// <summary>Metal analysis in mass % by element. Iron is the remainder to 100 %. Immutable.</summary>
public sealed class MetalAnalysis
{
    private readonly double[] _percent;

    /// <param name="percent">Mass % of each element other than iron; what is not named is zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is negative or not finite, or the sum exceeds 100 %.</exception>
    public MetalAnalysis(IReadOnlyDictionary<Element, double> percent)
    {
        ArgumentNullException.ThrowIfNull(percent);
        _percent = new double[AtomicWeights.Count];
        double sum = 0;
        foreach ((Element element, double value) in percent)
        {
            if (element == Element.Fe)
            {
                continue;
            }

            Check.InRange(value, 0, 100, "mass %", element.ToString());
            _percent[(int)element] = value;
            sum += value;
        }

        Check.InRange(sum, 0, 100, "mass %", "sum of the metal analysis");
        _percent[(int)Element.Fe] = 100 - sum;
    }

    /// <summary>Mass % of the element.</summary>
    public double this[Element element] => _percent[(int)element];

    /// <summary>A copy with one element changed; iron takes up the difference.</summary>
    public MetalAnalysis With(Element element, double percent)
    {
        var values = new Dictionary<Element, double>();
        foreach (Element e in Enum.GetValues<Element>())
        {
            values[e] = e == element ? percent : this[e];
        }

        return new MetalAnalysis(values);
    }
}

/// <summary>Analysis of a solid (flux, ore, coke, alloy, slag) in mass % of constituents. Immutable; sums to 100.</summary>
public sealed class SolidAnalysis
{
    private readonly double[] _percent;

    /// <param name="percent">Mass % by constituent. Must sum to 100 within 0.01; use <see cref="Normalised"/> otherwise.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is negative or not finite, or the sum is not 100 %.</exception>
    public SolidAnalysis(IReadOnlyDictionary<Constituent, double> percent)
    {
        ArgumentNullException.ThrowIfNull(percent);
        _percent = new double[Constituents.Count];
        double sum = 0;
        foreach ((Constituent constituent, double value) in percent)
        {
            Check.InRange(value, 0, 100, "mass %", constituent.ToString());
            _percent[(int)constituent] = value;
            sum += value;
        }

        Check.InRange(sum, 99.99, 100.01, "mass %", "sum of the analysis");
        for (int i = 0; i < _percent.Length; i++)
        {
            _percent[i] *= 100 / sum;
        }
    }

    /// <summary>An analysis scaled to 100 %.</summary>
    public static SolidAnalysis Normalised(IReadOnlyDictionary<Constituent, double> parts)
    {
        double sum = parts.Values.Sum();
        Check.InRange(sum, double.Epsilon, double.MaxValue, "parts", "sum of the analysis");
        return new SolidAnalysis(parts.ToDictionary(p => p.Key, p => p.Value * 100 / sum));
    }

    /// <summary>Mass % of the constituent.</summary>
    public double this[Constituent constituent] => _percent[(int)constituent];
}
