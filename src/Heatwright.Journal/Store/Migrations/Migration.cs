// SPDX-License-Identifier: Apache-2.0
using System.Reflection;

namespace Heatwright.Journal.Store.Migrations;

/// <summary>One step of a store's layout. Steps are never edited once released; a change is a new step.</summary>
/// <param name="Version">Version that the store has after it, from 1.</param>
/// <param name="Name">What it brings.</param>
/// <param name="Sql">The statements.</param>
internal sealed record Migration(int Version, string Name, string Sql)
{
    /// <summary>Steps for SQLite, in order.</summary>
    public static IReadOnlyList<Migration> Sqlite { get; } = Load("Sqlite");

    /// <summary>Steps for PostgreSQL, in order.</summary>
    public static IReadOnlyList<Migration> Postgres { get; } = Load("Postgres");

    /// <summary>Version of the stores that this program writes.</summary>
    public static int Newest => Sqlite[^1].Version;

    private static Migration[] Load(string dialect)
    {
        Assembly assembly = typeof(Migration).Assembly;
        string prefix = "Migrations/" + dialect + "/";
        Migration[] steps =
        [
            .. assembly.GetManifestResourceNames()
                .Where(n => n.StartsWith(prefix, StringComparison.Ordinal))
                .Order(StringComparer.Ordinal)
                .Select(n => new Migration(int.Parse(n.AsSpan(prefix.Length, 4)), Path.GetFileNameWithoutExtension(n)[5..], Text(assembly, n))),
        ];
        return steps.Select((s, i) => s.Version == i + 1).All(inOrder => inOrder) && steps.Length > 0
            ? steps
            : throw new InvalidOperationException($"The migrations for {dialect} have gaps.");
    }

    private static string Text(Assembly assembly, string name)
    {
        using var reader = new StreamReader(assembly.GetManifestResourceStream(name)!);
        return reader.ReadToEnd();
    }
}
