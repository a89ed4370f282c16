// SPDX-License-Identifier: Apache-2.0
using System.Diagnostics;
using System.Globalization;
using System.Runtime.CompilerServices;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;

namespace Heatwright.Journal.Tests.Care;

/// <summary>
/// A process of its own that writes to a journal without end and says which ids were acknowledged: this test program, started anew
/// with a variable set. It is there to be killed.
/// </summary>
internal sealed class KilledWriter : IDisposable
{
    private const string PlaceVariable = "HEATWRIGHT_TEST_WRITER";
    private const string SeedVariable = "HEATWRIGHT_TEST_WRITER_SEED";

    /// <summary>Before a place: it is to be made.</summary>
    public const string CreatePrefix = "create:";

    private readonly Process _process;

    public KilledWriter(string place, int seed)
    {
        var start = new ProcessStartInfo(Environment.ProcessPath!) { RedirectStandardOutput = true, RedirectStandardError = true, UseShellExecute = false };
        if (Path.GetFileNameWithoutExtension(Environment.ProcessPath) == "dotnet")
        {
            start.ArgumentList.Add(typeof(KilledWriter).Assembly.Location);
        }

        start.Environment[PlaceVariable] = place;
        start.Environment[SeedVariable] = seed.ToString(CultureInfo.InvariantCulture);
        _process = Process.Start(start)!;
        _process.ErrorDataReceived += (_, e) => Errors += e.Data is null ? "" : e.Data + "\n";
        _process.BeginErrorReadLine();
    }

    /// <summary>What it said on its way out, when it was not killed.</summary>
    public string Errors { get; private set; } = "";

    /// <summary>Ids of entries that it was told are written.</summary>
    public List<Guid> Acknowledged { get; } = [];

    /// <summary>Reads acknowledgements until so many requests more were acknowledged.</summary>
    public void Await(int requests)
    {
        for (int i = 0; i < requests; i++)
        {
            Take(_process.StandardOutput.ReadLine() ?? throw new InvalidOperationException("The writer ended by itself: " + Errors));
        }
    }

    /// <summary>Kills it (SIGKILL) after so many rounds of idling, and takes what it had said until then.</summary>
    public void Kill(int spin)
    {
        Thread.SpinWait(spin);
        _process.Kill();
        string[] rest = _process.StandardOutput.ReadToEnd().Split('\n');
        foreach (string line in rest[..^1]) // The last may be half a line: not said.
        {
            Take(line);
        }

        _process.WaitForExit();
    }

    public void Dispose()
    {
        if (!_process.HasExited)
        {
            _process.Kill();
        }

        _process.Dispose();
    }

    /// <summary>Reads until it is about to open the journal.</summary>
    public void AwaitStart() => Await(1);

    private void Take(string line) => Acknowledged.AddRange(line == "start" ? [] : line.Split(' ').Select(Guid.Parse));

    /// <summary>Before the test runner: when the variable is set, this process is a writer and nothing else.</summary>
    [ModuleInitializer]
#pragma warning disable CA2255 // The test program has no entry point of its own to put this in.
    internal static void WriteIfAsked()
#pragma warning restore CA2255
    {
        if (Environment.GetEnvironmentVariable(PlaceVariable) is { Length: > 0 } place)
        {
            Write(place, int.Parse(Environment.GetEnvironmentVariable(SeedVariable)!, CultureInfo.InvariantCulture));
        }
    }

    private static void Write(string place, int seed)
    {
        var random = new Random(seed);
        using Stream output = Console.OpenStandardOutput();
        bool create = place.StartsWith(CreatePrefix, StringComparison.Ordinal);
        output.Write("start\n"u8);
        output.Flush();
        using SqlJournal store = JournalPlace.Open(create ? place[CreatePrefix.Length..] : place, new JournalOptions { CreateIfMissing = create });
        for (int request = 0; ; request++)
        {
            string heat = $"{seed}-{request}";
            int count = 1 + random.Next(5);
            NewEntry[] entries = [.. Enumerable.Range(1, count).Select(i => NewEntry.Of(heat, new NoteBody($"{i} of {count} {CareJournal.Text(random, random.Next(4) == 0 ? 20_000 : 60)}"), CareJournal.Start, "program:writer"))];
            store.Append([new AppendRequest(entries)]);
            if (request % 10 == 9)
            {
                store.Heats.Save([new HeatRow(heat, CareJournal.Start, "closed", "S235", "K1", "2031-03-04", "early", 0, "{}")], store.Head().Sequence);
            }

            output.Write(System.Text.Encoding.ASCII.GetBytes(string.Join(' ', entries.Select(e => e.Id)) + "\n"));
            output.Flush();
        }
    }
}
