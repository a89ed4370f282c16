// SPDX-License-Identifier: Apache-2.0
using System.Reflection.Metadata;
using System.Reflection.PortableExecutable;

namespace Heatwright.Architecture.Tests;

/// <summary>
/// Reads from an assembly's own tables what it uses of the framework, and keeps what reaches outside the computation: files,
/// clock, console, environment, network, logging, chance without a seed. The tables list each use once, whoever makes it.
/// </summary>
internal static class ImpureUse
{
    private static readonly string[] Types =
    [
        "System.Console", "System.TimeProvider", "System.TimeZoneInfo",
        "System.IO.File", "System.IO.FileInfo", "System.IO.FileStream", "System.IO.FileSystemWatcher",
        "System.IO.Directory", "System.IO.DirectoryInfo", "System.IO.DriveInfo", "System.IO.RandomAccess",
        "System.Diagnostics.Process", "System.Diagnostics.Stopwatch", "System.Diagnostics.Trace",
        "System.Diagnostics.ActivitySource", "System.Threading.Timer",
    ];

    private static readonly string[] Namespaces = ["System.Net", "System.IO.Pipes", "System.Timers", "System.Data", "Microsoft.Extensions"];

    private static readonly string[] Members =
    [
        "System.DateTime.get_Now", "System.DateTime.get_UtcNow", "System.DateTime.get_Today",
        "System.DateTimeOffset.get_Now", "System.DateTimeOffset.get_UtcNow",
        "System.Environment.get_TickCount", "System.Environment.get_TickCount64", "System.Environment.GetEnvironmentVariable",
        "System.Environment.get_CurrentDirectory", "System.Environment.Exit", "System.Environment.get_MachineName",
        "System.Threading.Thread.Sleep", "System.Threading.Tasks.Task.Delay",
        "System.Guid.NewGuid", "System.Random.get_Shared", "System.Random..ctor()",
        "System.Diagnostics.Debug.WriteLine",
    ];

    public static IReadOnlyList<string> Of(string assemblyFile)
    {
        using var file = new PEReader(File.OpenRead(assemblyFile));
        MetadataReader reader = file.GetMetadataReader();
        IEnumerable<string> types = reader.TypeReferences
            .Select(h => FullName(reader, h))
            .Where(t => Types.Contains(t) || Namespaces.Any(n => t.StartsWith(n + ".", StringComparison.Ordinal)));
        IEnumerable<string> members = reader.MemberReferences
            .Select(reader.GetMemberReference)
            .Where(m => m.Parent.Kind == HandleKind.TypeReference)
            .Select(m => $"{FullName(reader, (TypeReferenceHandle)m.Parent)}.{reader.GetString(m.Name)}{NoParameters(reader, m)}")
            .Where(m => Members.Contains(m));
        return [.. types.Concat(members).Order(StringComparer.Ordinal)];
    }

    private static string FullName(MetadataReader reader, TypeReferenceHandle handle)
    {
        TypeReference type = reader.GetTypeReference(handle);
        return reader.GetString(type.Namespace) + "." + reader.GetString(type.Name);
    }

    /// <summary>"()" for a constructor without parameters: an unseeded generator is told from a seeded one by it.</summary>
    private static string NoParameters(MetadataReader reader, MemberReference member)
    {
        if (member.GetKind() != MemberReferenceKind.Method || reader.GetString(member.Name) != ".ctor")
        {
            return string.Empty;
        }

        BlobReader signature = reader.GetBlobReader(member.Signature);
        signature.ReadSignatureHeader();
        return signature.ReadCompressedInteger() == 0 ? "()" : string.Empty;
    }
}
