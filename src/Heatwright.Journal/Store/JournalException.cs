// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Journal.Store;

/// <summary>Why a journal cannot be used.</summary>
public enum JournalProblem
{
    /// <summary>There is none at the place named.</summary>
    NotFound,
    /// <summary>The file or database is something else.</summary>
    NotAJournal,
    /// <summary>It was made by a later version of this program.</summary>
    TooNew,
    /// <summary>No room on the disk.</summary>
    DiskFull,
    /// <summary>It may not be written.</summary>
    ReadOnly,
    /// <summary>Another program holds it.</summary>
    Busy,
    /// <summary>What is read is not what was written.</summary>
    Damaged,
    /// <summary>The server does not answer.</summary>
    Unreachable,
    /// <summary>There is something already where a new one was to be put.</summary>
    Exists,
    /// <summary>An entry that cannot be taken as it stands.</summary>
    BadEntry,
    /// <summary>A version of a heat or an id is not what the writer expected.</summary>
    Conflict,
    /// <summary>Anything else that the disk or server reports.</summary>
    Failed,
}

/// <summary>A journal cannot be used. The message names the place, what is wrong and the mend.</summary>
public sealed class JournalException : Exception
{
    /// <summary>With what is wrong.</summary>
    public JournalException(JournalProblem problem, string message, Exception? inner = null)
        : base(message, inner) => Problem = problem;

    /// <summary>What is wrong.</summary>
    public JournalProblem Problem { get; }
}
