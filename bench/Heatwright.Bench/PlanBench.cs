// SPDX-License-Identifier: Apache-2.0
using System.Diagnostics;
using Heatwright.Converter.Charge;
using Heatwright.Optimise;
using Heatwright.Shop;
using Heatwright.Shop.Planning;

namespace Heatwright.Bench;

/// <summary>A plan with the confidence of a thousand members, and the built program from process start to printed plan.</summary>
internal static class PlanBench
{
    private const double PlanLimitS = 1.0;
    private const double StartLimitS = 1.5;

    public static bool RunPlan()
    {
        Works works = ShopLoader.DemonstrationWorks;
        Heat heat = ShopLoader.LoadDemonstrationHeat("heats/ordinary.yaml").ValueOrThrow();
        PlanRequest request = HeatPlanner.Request(works, heat, members: 1000);
        using var solver = new GlopLinearProgram();
        Timing plan = Stopwatches.Time(() => Planner.Plan(request, solver), 6, 5);
        Console.WriteLine($"plan, 1000 members, all cores: {plan}  (limit {PlanLimitS:F1} s)");
        return plan.MedianS <= PlanLimitS;
    }

    public static bool RunStart()
    {
        string? program = FindProgram();
        if (program is null)
        {
            Console.WriteLine("start: the command line is not built in Release; skipped");
            return true;
        }

        Timing plan = Stopwatches.Time(() => (object)Start(program, "plan"), 8, 5);
        Timing blow = Stopwatches.Time(() => (object)Start(program, "blow"), 5, 5);
        Console.WriteLine($"start to printed plan: {plan}  (limit {StartLimitS:F1} s)");
        Console.WriteLine($"start to printed blow: {blow}");
        return plan.MedianS <= StartLimitS;
    }

    private static int Start(string program, string command)
    {
        string heat = Path.Combine(Root()!, "examples", "heats", "ordinary.yaml");
        using Process process = Process.Start(new ProcessStartInfo(program, [command, heat]) { RedirectStandardOutput = true, UseShellExecute = false })!;
        string text = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return process.ExitCode == 0 ? text.Length : throw new InvalidOperationException($"{command} ended with {process.ExitCode}: {text}");
    }

    private static string? FindProgram()
    {
        string? root = Root();
        string path = Path.Combine(root ?? ".", "src", "Heatwright.Cli", "bin", "Release", "net10.0", "linux-x64", "heatwright");
        return root is not null && File.Exists(path) ? path : null;
    }

    private static string? Root()
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Heatwright.slnx")))
        {
            folder = folder.Parent;
        }

        return folder?.FullName;
    }
}
