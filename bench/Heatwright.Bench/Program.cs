// SPDX-License-Identifier: Apache-2.0
using Heatwright.Bench;

// Each bench prints what it measured and returns false when a stated limit is broken.
var benches = new Dictionary<string, Func<bool>>
{
    ["referee"] = RefereeBench.Run,
    ["lp"] = LinearPrograms.Run,
    ["blow"] = BlowBench.Run,
    ["plan"] = PlanBench.RunPlan,
    ["start"] = PlanBench.RunStart,
    ["journal"] = JournalBench.Run,
    ["import"] = ImportBench.Run,
};

string[] chosen = args is [] or ["all"] ? [.. benches.Keys] : args;
if (chosen.FirstOrDefault(name => !benches.ContainsKey(name)) is string unknown)
{
    await Console.Error.WriteLineAsync($"No bench '{unknown}'; there are {string.Join(", ", benches.Keys)}, and all.");
    return 2;
}

bool good = true;
foreach (string name in chosen)
{
    if (!benches[name]())
    {
        await Console.Error.WriteLineAsync($"{name}: a limit was broken");
        good = false;
    }
}

return good ? 0 : 1;
