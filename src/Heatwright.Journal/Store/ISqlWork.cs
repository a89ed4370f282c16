// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Journal.Store;

/// <summary>Lends sessions.</summary>
internal interface ISqlWork
{
    /// <summary>Reads on a session.</summary>
    T Reading<T>(Func<SqlSession, T> read);

    /// <summary>Writes in one transaction.</summary>
    T Writing<T>(Func<SqlSession, T> write);
}
