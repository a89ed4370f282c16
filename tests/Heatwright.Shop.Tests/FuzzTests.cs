// SPDX-License-Identifier: Apache-2.0
using System.Diagnostics;
using System.Text;
using Heatwright.Converter.Blow;
using Heatwright.Shop.Files;

namespace Heatwright.Shop.Tests;

/// <summary>
/// Spoils the example files at random and reads them. Whatever comes in, either a value or problems must come out: no
/// exception, no more than the budget of values and problems. With HEATWRIGHT_FUZZ_SECONDS set it runs that long and
/// takes its seed from the clock, which it prints on failure.
/// </summary>
public sealed class FuzzTests
{
    private const int OrdinaryRounds = 4000;

    private static readonly string[] Scraps =
    [
        "&a ", "*a", "!!int ", "- ", "? ", ": ", "{", "}", "[", "]", "\"", "'", "|\n", ">\n", "#", "%", "---\n", "...\n", "\t", "\0", "\u2028", "\uFEFF", "<<: *a\n",
        "NaN", "1e999 t", "-1 %", "9999999999999999999999 t", "0 t", "null", "~", "true", "°", "Nm3", " to ", "max ", "\U0001F525", "%YAML 1.2\n", "@", "`", "\r", "\\x00",
    ];

    [Fact]
    public void A_spoilt_file_gives_problems_and_never_an_exception()
    {
        double seconds = double.TryParse(Environment.GetEnvironmentVariable("HEATWRIGHT_FUZZ_SECONDS"), out double s) ? s : 0;
        int seed = seconds > 0 ? Environment.TickCount : 20240601;
        var random = new Random(seed);
        var clock = Stopwatch.StartNew();
        int refused = 0;
        int rounds = 0;
        while (seconds > 0 ? clock.Elapsed.TotalSeconds < seconds : rounds < OrdinaryRounds)
        {
            rounds++;
            string file = Example.Files[random.Next(Example.Files.Count)];
            byte[] bytes = Example.Bytes(file);
            for (int spoils = random.Next(1, 5); spoils > 0; spoils--)
            {
                bytes = Spoil(bytes, random);
            }

            IReadOnlyList<Problem> problems = ReadOrExplain(file, bytes, seed, rounds);
            refused += problems.Count > 0 ? 1 : 0;
            Assert.True(problems.Count <= Reading.MaxProblems + 1);
            Assert.All(problems, p => Assert.True(p.Mend.Length > 0 && p.Message.Length < 4000 && p.Field.Length <= 200));
        }

        // Most spoilt files must be noticed; if not, the spoiling no longer reaches the loader.
        Assert.True(refused > rounds / 2, $"{refused} of {rounds} refused.");
    }

    private static IReadOnlyList<Problem> ReadOrExplain(string file, byte[] bytes, int seed, int round)
    {
        try
        {
            return Example.Check(file, bytes);
        }
        catch (Exception e)
        {
            throw new InvalidOperationException($"Seed {seed}, round {round}, {file}: {Convert.ToBase64String(bytes)}", e);
        }
    }

    [Fact]
    public void What_the_loader_takes_the_model_takes()
    {
        var random = new Random(5);
        int taken = 0;
        for (int round = 0; round < 1500; round++)
        {
            string file = ShopLoader.DemonstrationHeats[random.Next(ShopLoader.DemonstrationHeats.Count)];
            byte[] bytes = SwapNumbers(Example.Bytes(file), random);
            if (ShopLoader.ReadHeat(bytes, file, ShopLoader.DemonstrationWorks).Value is not { Charge: not null } heat)
            {
                continue;
            }

            taken++;
            BlowModel.Run(HeatBuilder.Build(ShopLoader.DemonstrationWorks, heat));
        }

        Assert.True(taken > 50, $"Only {taken} were taken.");
    }

    private static byte[] Spoil(byte[] bytes, Random random)
    {
        if (bytes.Length == 0)
        {
            return [(byte)random.Next(256)];
        }

        switch (random.Next(9))
        {
            case 0:
                byte[] flipped = [.. bytes];
                for (int i = random.Next(1, 6); i > 0; i--)
                {
                    flipped[random.Next(flipped.Length)] ^= (byte)(1 << random.Next(8));
                }

                return flipped;
            case 1:
                return bytes[..random.Next(bytes.Length)];
            case 2:
                return Lines(bytes, random, (lines, i) => lines.Insert(random.Next(lines.Count + 1), lines[i]));
            case 3:
                return Lines(bytes, random, (lines, i) => lines.RemoveAt(i));
            case 4:
                return Lines(bytes, random, (lines, i) =>
                {
                    int j = random.Next(lines.Count);
                    (lines[i], lines[j]) = (lines[j], lines[i]);
                });
            case 5:
                return SwapNumbers(bytes, random);
            case 6:
                return Insert(bytes, random, Encoding.UTF8.GetBytes(Scraps[random.Next(Scraps.Length)]));
            case 7:
                char bracket = "[{-?: "[random.Next(6)];
                return Insert(bytes, random, Encoding.UTF8.GetBytes(string.Concat(Enumerable.Repeat(bracket is '-' or '?' or ':' ? bracket + " " : bracket.ToString(), random.Next(1, 400)))));
            default:
                return Lines(bytes, random, (lines, i) => lines[i] = new string(' ', random.Next(12)) + lines[i].TrimStart());
        }
    }

    private static byte[] Insert(byte[] bytes, Random random, byte[] piece)
    {
        int at = random.Next(bytes.Length + 1);
        return [.. bytes[..at], .. piece, .. bytes[at..]];
    }

    private static byte[] Lines(byte[] bytes, Random random, Action<List<string>, int> change)
    {
        // Latin-1 keeps every byte as it is.
        List<string> lines = [.. Encoding.Latin1.GetString(bytes).Split('\n')];
        change(lines, random.Next(lines.Count));
        return Encoding.Latin1.GetBytes(string.Join('\n', lines));
    }

    private static byte[] SwapNumbers(byte[] bytes, Random random)
    {
        byte[] result = [.. bytes];
        int[] digits = [.. Enumerable.Range(0, result.Length).Where(i => result[i] is >= (byte)'0' and <= (byte)'9')];
        if (digits.Length > 0)
        {
            for (int i = random.Next(1, 8); i > 0; i--)
            {
                result[digits[random.Next(digits.Length)]] = (byte)random.Next('0', '9' + 1);
            }
        }

        return result;
    }
}
