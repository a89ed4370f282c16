// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Store;

namespace Heatwright.Journal.Tests.Store;

/// <summary>A statement that takes too long is ended and not asked again; where all may take its time, none is ended.</summary>
public sealed class StatementTimeoutTests
{
    [Fact]
    public void A_statement_that_takes_too_long_is_not_tried_again()
    {
        using SqlJournal store = JournalPlace.Create(PostgresServer.Shared.NewDatabase(), new JournalOptions { StatementTimeout = TimeSpan.FromSeconds(1) });
        foreach (bool write in new[] { false, true })
        {
            int calls = 0;
            int Slow(SqlSession session)
            {
                calls++;
                return session.Query("SELECT 1 FROM pg_sleep(600)", r => r.GetInt32(0))[0];
            }

            var refusal = Assert.Throws<JournalException>(() => write ? store.Writing(Slow) : store.Reading(Slow));
            Assert.Equal(JournalProblem.Busy, refusal.Problem);
            Assert.Contains("longer than the 1 s", refusal.Message, StringComparison.Ordinal);
            Assert.Equal(1, calls);
        }

        store.Append(Sample.Note("A"));
        Assert.Single(Sample.AssertChain(store));
    }

    [Fact]
    public void Zero_lets_a_statement_take_its_time_whatever_the_place_says()
    {
        var uri = new Uri(PostgresServer.Shared.NewDatabase());
        string place = $"Host={uri.Host};Port={uri.Port};Username=postgres;Database={uri.AbsolutePath[1..]};Command Timeout=1";
        using SqlJournal store = JournalPlace.Create(place, new JournalOptions { StatementTimeout = TimeSpan.Zero });
        Assert.Equal(1, store.Reading(s => s.Query("SELECT 1 FROM pg_sleep(1.5)", r => r.GetInt32(0))[0]));
    }
}
