// SPDX-License-Identifier: Apache-2.0
using Microsoft.Data.Sqlite;

namespace Heatwright.Journal.Store.Sqlite;

/// <summary>The copy that is put beside a file before its layout is changed.</summary>
internal static class SqliteBackup
{
    /// <summary>Writes "name.before-vN.journal" beside the file; when that is there already, "name.before-vN-2.journal" and so on.</summary>
    /// <returns>The path of the copy.</returns>
    public static string BeforeMigration(string path, SqliteConnection connection, int toVersion)
    {
        string part = path + $".{Guid.NewGuid():N}.part";
        try
        {
            using (SqliteCommand command = connection.CreateCommand())
            {
                command.CommandText = "VACUUM INTO @part";
                command.Parameters.AddWithValue("@part", part);
                command.ExecuteNonQuery();
            }

            using (var file = new FileStream(part, FileMode.Open, FileAccess.ReadWrite))
            {
                file.Flush(flushToDisk: true);
            }

            return MoveToFreeName(path, part, toVersion);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw SqliteErrors.Of(
                JournalProblem.Failed, path, $"no copy can be put beside it before its layout is brought to version {toVersion} ({e.Message})",
                "make room and allow writing in its folder", e);
        }
        finally
        {
            File.Delete(part);
        }
    }

    private static string MoveToFreeName(string path, string part, int toVersion)
    {
        string stem = Path.Combine(Path.GetDirectoryName(path)!, Path.GetFileNameWithoutExtension(path)) + $".before-v{toVersion}";
        for (int i = 1; ; i++)
        {
            string copy = stem + (i == 1 ? "" : $"-{i}") + ".journal";
            try
            {
                FolderSync.Move(part, copy);
                return copy;
            }
            catch (IOException) when (File.Exists(copy))
            {
                // Taken: the next name.
            }
        }
    }
}
