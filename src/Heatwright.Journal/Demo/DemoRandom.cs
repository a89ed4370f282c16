// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Journal.Demo;

/// <summary>
/// SplitMix64 (Steele, Lea and Flood, OOPSLA 2014) with named streams: what one part of the year draws does not move the others.
/// </summary>
internal sealed class DemoRandom
{
    private ulong _state;

    /// <param name="seed">Seed of the year.</param>
    /// <param name="stream">What is drawn, e.g. "iron".</param>
    /// <param name="index">Heat, lot or day.</param>
    public DemoRandom(int seed, string stream, int index = 0)
    {
        // FNV-1a over the name; SplitMix itself scatters what is near.
        ulong hash = 14695981039346656037UL;
        foreach (char c in stream)
        {
            hash = (hash ^ c) * 1099511628211UL;
        }

        _state = hash ^ ((ulong)(uint)seed * 0xD1342543DE82EF95UL);
        _state = Next() ^ ((ulong)(uint)index * 0x9E6C63D0876A9A47UL);
        Next();
    }

    /// <summary>Sixty-four random bits.</summary>
    public ulong Next()
    {
        ulong z = _state += 0x9E3779B97F4A7C15UL;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
        return z ^ (z >> 31);
    }

    /// <summary>A number in the open interval (0, 1).</summary>
    public double Unit() => ((Next() >> 11) + 0.5) / (1UL << 53);

    public double Between(double least, double most) => least + ((most - least) * Unit());

    public bool Chance(double probability) => Unit() < probability;

    public int Below(int count) => (int)(Unit() * count);

    /// <summary>Standard normal by Box and Muller (Ann. Math. Stat. 29 (1958) 610).</summary>
    public double Normal() => Math.Sqrt(-2 * Math.Log(Unit())) * Math.Cos(2 * Math.PI * Unit());

    public double Normal(double mean, double deviation) => mean + (deviation * Normal());

    /// <summary>Normal, kept within three deviations: a plant trips or a person looks twice before it goes further.</summary>
    public double Kept(double mean, double deviation) => mean + (deviation * Math.Clamp(Normal(), -3, 3));

    public double LogNormal(double median, double sigma) => median * Math.Exp(sigma * Math.Clamp(Normal(), -3, 3));

    /// <summary>One of the things, each with its weight.</summary>
    public T Weighted<T>(IReadOnlyList<(T Thing, double Weight)> things)
    {
        double left = Unit() * things.Sum(t => t.Weight);
        foreach ((T thing, double weight) in things)
        {
            if ((left -= weight) < 0)
            {
                return thing;
            }
        }

        return things[^1].Thing;
    }
}
