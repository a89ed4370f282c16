// SPDX-License-Identifier: Apache-2.0
using System.Runtime.InteropServices;

namespace Heatwright.Journal.Store.Sqlite;

/// <summary>
/// Brings a folder to the disk, so that a file that was renamed there has its new name after a loss of power too (POSIX: fsync of
/// the folder). Windows keeps names in a log of its own and has no such call: nothing is done there.
/// </summary>
internal static partial class FolderSync
{
    private const int InvalidArgument = 22; // EINVAL: this file system has no such thing (network drives).

    /// <summary>Gives a file its name for good. What stands at the name is never written over.</summary>
    /// <exception cref="IOException">Something stands there, or the disk reports an error.</exception>
    public static void Move(string from, string to)
    {
        File.Move(from, to, overwrite: false);
        Sync(Path.GetDirectoryName(Path.GetFullPath(to))!);
    }

    /// <summary>Brings the names in a folder to the disk.</summary>
    /// <exception cref="IOException">The disk reports an error, or there is no such folder.</exception>
    public static void Sync(string folder)
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        int file = Open(folder, 0);
        if (file < 0)
        {
            int error = Marshal.GetLastPInvokeError();
            if (Directory.Exists(folder))
            {
                return; // It may be written and not read: nobody can bring it to the disk.
            }

            throw new IOException($"{folder}: {Marshal.GetPInvokeErrorMessage(error)}");
        }

        int answer = FSync(file), reason = Marshal.GetLastPInvokeError();
        _ = Close(file);
        if (answer != 0 && reason != InvalidArgument)
        {
            throw new IOException($"{folder} cannot be brought to the disk: {Marshal.GetPInvokeErrorMessage(reason)}");
        }
    }

    [LibraryImport("libc", EntryPoint = "open", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    private static partial int Open(string path, int flags);

    [LibraryImport("libc", EntryPoint = "fsync", SetLastError = true)]
    private static partial int FSync(int file);

    [LibraryImport("libc", EntryPoint = "close", SetLastError = true)]
    private static partial int Close(int file);
}
