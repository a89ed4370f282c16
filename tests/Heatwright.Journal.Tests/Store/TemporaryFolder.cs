// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Journal.Tests.Store;

/// <summary>A folder that is gone afterwards.</summary>
public sealed class TemporaryFolder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("heatwright-journal-").FullName;

    public string File(string name) => System.IO.Path.Combine(Path, name);

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
