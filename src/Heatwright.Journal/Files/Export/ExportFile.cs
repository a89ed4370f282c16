// SPDX-License-Identifier: Apache-2.0
using System.Security;
using Heatwright.Shop.Files;

namespace Heatwright.Journal.Files.Export;

/// <summary>Writes a file beside its place and moves it there when it is whole, so that a half-written one is never taken for an export.</summary>
internal static class ExportFile
{
    public static T Write<T>(string path, bool replace, Func<Stream, T> write)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        if (!replace && File.Exists(path))
        {
            throw FileRefusedException.Of(ProblemCode.DuplicateName, path, "There is a file of this name already.", "give another name, or say that it may be replaced");
        }

        // A name of its own: two exports at once do not write into each other's file, and no file that is there is written over.
        string partial = path + $".{Guid.NewGuid():N}.part";
        try
        {
            T result;
            using (var stream = new FileStream(partial, FileMode.CreateNew, FileAccess.ReadWrite, FileShare.None, 1 << 16))
            {
                result = write(stream);
            }

            File.Move(partial, path, replace);
            return result;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or SecurityException or NotSupportedException)
        {
            throw FileRefusedException.Of(
                ProblemCode.FileUnreadable, path, "The file cannot be written: " + e.Message.TrimEnd('.') + ".", "check the folder, the room on the disk and the rights");
        }
        finally
        {
            Remove(partial);
        }
    }

    private static void Remove(string partial)
    {
        try
        {
            File.Delete(partial);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // The first trouble is the one to tell; a left-over .part hinders nothing.
        }
    }
}
