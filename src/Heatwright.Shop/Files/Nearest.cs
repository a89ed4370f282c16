// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Shop.Files;

/// <summary>Finds the name that was probably meant.</summary>
internal static class Nearest
{
    private const int LongestCompared = 48;

    /// <summary>The nearest candidate within a third of its length (at least two letters off), or null.</summary>
    public static string? Of(string written, IEnumerable<string> candidates)
    {
        if (written.Length is 0 or > LongestCompared)
        {
            return null;
        }

        string? best = null;
        int bestDistance = int.MaxValue;
        foreach (string candidate in candidates.Where(c => c.Length <= LongestCompared))
        {
            int distance = Distance(Plain(written), Plain(candidate));
            if (distance < bestDistance && distance <= Math.Max(2, candidate.Length / 3) && distance < candidate.Length)
            {
                best = candidate;
                bestDistance = distance;
            }
        }

        return best;
    }

    private static string Plain(string name) =>
        string.Concat(name.Where(c => c is not ('-' or '_' or ' '))).ToUpperInvariant();

    private static int Distance(string a, string b)
    {
        int[] previous = [.. Enumerable.Range(0, b.Length + 1)];
        int[] current = new int[b.Length + 1];
        for (int i = 1; i <= a.Length; i++)
        {
            current[0] = i;
            for (int j = 1; j <= b.Length; j++)
            {
                int change = previous[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
                current[j] = Math.Min(change, Math.Min(previous[j], current[j - 1]) + 1);
            }

            (previous, current) = (current, previous);
        }

        return previous[b.Length];
    }
}
