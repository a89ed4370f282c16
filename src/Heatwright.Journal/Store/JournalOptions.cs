// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Journal.Store;

/// <summary>How a journal is opened.</summary>
public sealed record JournalOptions
{
    /// <summary>Only to read: nothing at the place is changed.</summary>
    public bool ReadOnly { get; init; }

    /// <summary>Make a new journal when there is none.</summary>
    public bool CreateIfMissing { get; init; }

    /// <summary>Where arrival times come from.</summary>
    public TimeProvider Clock { get; init; } = TimeProvider.System;

    /// <summary>How long to wait for a lock that another program holds.</summary>
    public TimeSpan LockTimeout { get; init; } = TimeSpan.FromSeconds(15);

    /// <summary>How often a call is tried again when the connection to a server is lost. The waits grow from 50 ms to 2 s: 20 tries take half a minute.</summary>
    public int Reconnects { get; init; } = 20;

    /// <summary>
    /// How long one statement on a server may take; zero: as long as it takes. Null: what the place says, 30 s when it says nothing.
    /// A statement that takes longer is ended and not tried again.
    /// </summary>
    public TimeSpan? StatementTimeout { get; init; }

    /// <summary>How often a file is looked at for entries that other programs wrote, while anyone watches.</summary>
    public TimeSpan WatchInterval { get; init; } = TimeSpan.FromMilliseconds(250);
}
