// SPDX-License-Identifier: Apache-2.0
using CsCheck;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Store;

namespace Heatwright.Journal.Tests.Store;

/// <summary>
/// Random runs of appends (new entries, repeats, changed repeats, right and wrong expectations, several heats, reopening) against
/// a plain list: statuses, chain, versions and contents must be those of the list, and both databases must give equal hashes.
/// </summary>
public sealed class StoreModelTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private int _files;

    public void Dispose() => _folder.Dispose();

    private static Gen<string> One(params string[] texts) => Gen.Int[0, texts.Length - 1].Select(i => texts[i]);

    private static readonly Gen<string> Heat = One("", "4711", "4712", "Ä-1");

    private static readonly Gen<EntryBody> Body = Gen.OneOf(
        Gen.Char['\0', '\ud7ff'].Array[0, 40].Select(t => new string(t)).Select(t => (EntryBody)new NoteBody(t)),
        Gen.Double[0, 200_000].Select(m => (EntryBody)new ChargeBody(ChargeKind.HotMetal, m)),
        Gen.Byte.Array[0, 300].Select(b => (EntryBody)new SignalBlockBody(b)));

    private static readonly Gen<NewEntry> Fresh = Gen.Select(
        Gen.Guid, Heat, Body, Gen.Long[0, 86_400_000_000_0], One("person:anna", "program:scale", "signal:låda"), One("", "as weighed", "🔥\n"),
        (id, heat, body, ticks, actor, reason) => new NewEntry(id, heat, body, Sample.Time.AddTicks(ticks), actor, reason));

    /// <summary>What is tried; indices are taken modulo what was written.</summary>
    private abstract record Step;

    private sealed record Write(NewEntry[] Entries, int Expect) : Step;

    private sealed record Repeat(int Which) : Step;

    private sealed record Change(int Which) : Step;

    private sealed record Mixed(int Which, NewEntry With) : Step;

    private sealed record Reopen : Step;

    private static readonly Gen<Step> AnyStep = Gen.Frequency(
        (6, Gen.Select(Fresh.Array[1, 4], Gen.Int[-2, 2], (e, x) => (Step)new Write(e, x))),
        (2, Gen.Int[0, 99].Select(i => (Step)new Repeat(i))),
        (1, Gen.Int[0, 99].Select(i => (Step)new Change(i))),
        (1, Gen.Select(Gen.Int[0, 99], Fresh, (i, e) => (Step)new Mixed(i, e))),
        (1, Gen.Const((Step)new Reopen())));

    [Fact]
    public void A_file_is_the_list_it_should_be() =>
        AnyStep.Array[1, 25].Sample(steps => { Run(steps, NewFile()); }, iter: 60, threads: 1);

    [Fact]
    public void Both_databases_are_the_same_list_with_the_same_hashes()
    {
        PostgresServer server = PostgresServer.Shared;
        AnyStep.Array[1, 25].Sample(steps => Assert.Equal(Run(steps, NewFile()), Run(steps, server.NewDatabase())), iter: 12, threads: 1);
    }

    private string NewFile() => _folder.File($"{++_files}.journal");

    private static string Run(Step[] steps, string place)
    {
        var clock = new SetClock();
        var options = new JournalOptions { Clock = clock, CreateIfMissing = true };
        var model = new List<AppendRequest>();
        var versions = new Dictionary<string, long>(StringComparer.Ordinal);
        SqlJournal store = JournalPlace.Open(place, options);
        try
        {
            foreach (Step step in steps)
            {
                clock.Advance(TimeSpan.FromMilliseconds(1234.5));
                if (step is Reopen)
                {
                    store.Dispose();
                    store = JournalPlace.Open(place, options);
                    continue;
                }

                if (step is not Write && model.Count == 0)
                {
                    continue;
                }

                (AppendRequest request, AppendStatus expected) = Plan(step, model, versions);
                AppendOutcome outcome = store.Append([request])[0];
                Assert.Equal(expected, outcome.Status);
                Assert.Equal(expected is AppendStatus.Written or AppendStatus.AlreadyThere ? request.Entries.Select(e => e.Id) : [], outcome.Entries.Select(e => e.Id));
                if (expected == AppendStatus.Written)
                {
                    model.Add(request);
                    foreach (NewEntry entry in request.Entries)
                    {
                        versions[entry.Heat] = versions.GetValueOrDefault(entry.Heat) + 1;
                    }
                }
            }

            AssertIs(model, versions, store);
            return store.Head().ToString();
        }
        finally
        {
            store.Dispose();
        }
    }

    private static (AppendRequest Request, AppendStatus Expected) Plan(Step step, List<AppendRequest> model, Dictionary<string, long> versions)
    {
        switch (step)
        {
            case Write w:
                // An expectation of 0 means none; else it is right, or off by what was drawn.
                int off = Math.Abs(w.Expect) == 1 ? 0 : w.Expect;
                string heat = w.Entries[0].Heat;
                long now = versions.GetValueOrDefault(heat);
                return w.Expect == 0
                    ? (new AppendRequest(w.Entries), AppendStatus.Written)
                    : (new AppendRequest(w.Entries, new Dictionary<string, long> { [heat] = now + off }), off == 0 ? AppendStatus.Written : AppendStatus.VersionConflict);
            case Repeat r:
                return (model[r.Which % model.Count], AppendStatus.AlreadyThere);
            case Change c:
                AppendRequest old = model[c.Which % model.Count];
                return (new AppendRequest([.. old.Entries.SkipLast(1), old.Entries[^1] with { Actor = "person:ben" }]), AppendStatus.IdConflict);
            case Mixed m:
                return (new AppendRequest([m.With, .. model[m.Which % model.Count].Entries]), AppendStatus.IdConflict);
            default:
                throw new InvalidOperationException(step.ToString());
        }
    }

    private static void AssertIs(List<AppendRequest> model, Dictionary<string, long> versions, SqlJournal store)
    {
        List<Entry> entries = Sample.AssertChain(store);
        NewEntry[] expected = [.. model.SelectMany(r => r.Entries)];
        Assert.Equal(expected.Length, entries.Count);
        foreach ((NewEntry want, Entry have) in expected.Zip(entries))
        {
            Assert.Equal(
                (want.Id, want.Heat, want.Kind, want.SourceTime.ToUnixTimeMilliseconds(), want.Actor, want.Reason),
                (have.Id, have.Heat, have.Kind, have.SourceTime.ToUnixTimeMilliseconds(), have.Actor, have.Reason));
            Assert.Equal(EntryText.Write(want.Body), have.BodyBytes.ToArray());
            Sample.AssertSame(have, store.Find(want.Id)!);
        }

        foreach (string heat in new[] { "", "4711", "4712", "Ä-1" })
        {
            Assert.Equal(versions.GetValueOrDefault(heat), store.Version(heat));
            Assert.Equal(entries.Where(e => e.Heat == heat), store.ReadHeat(heat));
            Assert.Equal(entries.Where(e => e.Heat == heat && e.Kind != EntryKind.SignalBlock), store.ReadHeat(heat, signals: false));
        }
    }
}
