// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using Heatwright.Journal.Entries;
using Heatwright.Journal.Files.Mapping;
using Heatwright.Journal.Files.Tables;
using Heatwright.Journal.Store;
using Heatwright.Shop.Files;

namespace Heatwright.Journal.Files.Import;

/// <summary>
/// Takes files of past heats into a journal: all of a file or nothing, in one transaction; a second time nothing is written. What the
/// journal holds already is never changed silently: a difference stops the import, or becomes a correction with a reason.
/// </summary>
public static class HeatImport
{
    /// <summary>Most heats of one import: they are written in one transaction and held in memory until then, some 17 kB each.</summary>
    public const int MostHeats = 40_000;

    // An entry lists the rows that were let go; beyond this many it says only how many more there were.
    private const int MostListed = 20_000;

    private const int Attempts = 3;

    private const string AssumedTime = "time assumed, the file has none";

    /// <summary>Reads a file by a mapping and says what it gives. Nothing is written; memory stays flat.</summary>
    /// <param name="path">The file.</param>
    /// <param name="mapping">The mapping.</param>
    /// <param name="options">How much to show.</param>
    /// <exception cref="FileRefusedException">The file as a whole cannot be read by the mapping.</exception>
    public static ImportPreview Preview(string path, ImportMapping mapping, ImportOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(mapping);
        options ??= new ImportOptions();
        TableSource table = TableSource.Open(path, mapping.Table);
        return Collect(table, mapping, options, keep: false).Preview;
    }

    /// <summary>Takes a file into a journal.</summary>
    /// <param name="store">The journal.</param>
    /// <param name="path">The file.</param>
    /// <param name="mapping">The mapping.</param>
    /// <param name="options">What to do with rejected rows and differences.</param>
    /// <exception cref="FileRefusedException">The file as a whole cannot be read by the mapping, or a correction has no reason.</exception>
    /// <exception cref="JournalException">The journal cannot be written; nothing was.</exception>
    public static ImportOutcome Write(IJournalStore store, string path, ImportMapping mapping, ImportOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(mapping);
        options ??= new ImportOptions();
        if (options.Correct && string.IsNullOrWhiteSpace(options.Reason))
        {
            throw FileRefusedException.Of(ProblemCode.MissingValue, Path.GetFileName(path), "Corrections have no reason.", "say why the file is right and the journal is not", null, 0, "reason");
        }

        TableSource table = TableSource.Open(path, mapping.Table);
        (ImportPreview preview, HeatCollector heats) = Collect(table, mapping, options, keep: true);
        if (preview.RejectedRows > 0 && !options.AcceptRejects)
        {
            return new ImportOutcome(ImportStatus.Rejected, preview, 0, 0, 0, 0, 0, []);
        }

        if (!options.AcceptDoubtful && preview.DoubtfulColumns.Any())
        {
            return new ImportOutcome(ImportStatus.Doubtful, preview, 0, 0, 0, 0, 0, []);
        }

        if (heats.Heats.Count > MostHeats)
        {
            throw FileRefusedException.Of(
                TableProblem.TooLarge, table.Name, $"The file holds {heats.Heats.Count} heats.", "split it by months", $"at most {MostHeats} heats in one import");
        }

        // Overtaken by another import, it looks again at what the journal holds now. Corrections are not compared anew unseen: they
        // would replace what someone has just written.
        for (int attempt = 1; ; attempt++)
        {
            ImportOutcome outcome = Compare(store, table, mapping, options, heats, preview);
            if (outcome.Status != ImportStatus.Overtaken || options.Correct || attempt == Attempts)
            {
                return outcome;
            }
        }
    }

    private static ImportOutcome Compare(IJournalStore store, TableSource table, ImportMapping mapping, ImportOptions options, HeatCollector heats, ImportPreview preview)
    {
        JournalHead head = store.Head();
        var merge = new HeatMerge(store, mapping, Reason(table, mapping), options);
        for (int i = 0; i < heats.Heats.Count; i++)
        {
            merge.Add(heats.Heats[i]);
            if ((i + 1) % 1000 == 0)
            {
                options.Progress?.Invoke(new ImportProgress("comparing", i + 1, heats.Heats.Count));
            }
        }

        ImportOutcome outcome = new(ImportStatus.NothingNew, preview, 0, merge.NewHeats, merge.AddedTo, merge.Unchanged, merge.Corrections, merge.Differences);
        if (merge.Differences.Count > 0 && (!options.Correct || merge.Differences.Any(d => d.Hindrance is not null)))
        {
            return outcome with { Status = ImportStatus.Differs, NewHeats = 0, AddedTo = 0, Corrected = 0 };
        }

        return merge.Entries.Count == 0 ? outcome : Append(store, head, table, mapping, options, merge, heats, outcome);
    }

    private static ImportOutcome Append(
        IJournalStore store, JournalHead head, TableSource table, ImportMapping mapping, ImportOptions options, HeatMerge merge, HeatCollector heats, ImportOutcome outcome)
    {
        string sha256 = table.Sha256();
        var body = new ImportBody(
            table.Name, sha256, mapping.Name, mapping.Text, outcome.Preview.Rows, outcome.Preview.Heats, Listed(heats.Rejects));
        Guid id = EntryId.From("import file", sha256, mapping.Text, head.ToString());
        options.Progress?.Invoke(new ImportProgress("writing", 0, merge.Entries.Count + 1));
        var request = new AppendRequest(
            [.. merge.Entries, new NewEntry(id, "", body, options.Clock.GetUtcNow(), options.Actor ?? mapping.Actor, options.Reason)], merge.Expected);
        AppendOutcome written = store.Append([request])[0];
        options.Progress?.Invoke(new ImportProgress("writing", request.Entries.Count, request.Entries.Count));
        return written.Status switch
        {
            AppendStatus.Written => outcome with { Status = ImportStatus.Written, Entries = request.Entries.Count },
            AppendStatus.VersionConflict or AppendStatus.AlreadyThere => Overtaken(outcome),

            // Ids follow from the file, so that two imports of one file clash by id too. In a journal that stood still it is another thing.
            AppendStatus.IdConflict when store.Head().Sequence != head.Sequence => Overtaken(outcome),
            _ => throw new JournalException(JournalProblem.Conflict, written.Conflict ?? "The journal holds something else under an id of this import."),
        };
    }

    private static ImportOutcome Overtaken(ImportOutcome outcome) => outcome with { Status = ImportStatus.Overtaken, NewHeats = 0, AddedTo = 0, Corrected = 0 };

    private static (ImportPreview Preview, HeatCollector Heats) Collect(TableSource table, ImportMapping mapping, ImportOptions options, bool keep)
    {
        void Tell(int rows) => options.Progress?.Invoke(new ImportProgress("reading", rows, null));
        var reader = new RowReader(table, mapping, Tell);
        var heats = new HeatCollector(table, mapping, reader, options.MostShown, keep);
        return (heats.Run(Tell), heats);
    }

    private static List<string> Listed(IEnumerable<Problem> rejects)
    {
        var listed = new List<string>();
        int more = 0;
        foreach (Problem problem in rejects)
        {
            if (listed.Count < MostListed)
            {
                listed.Add(problem.ToString());
            }
            else
            {
                more++;
            }
        }

        if (more > 0)
        {
            listed.Add($"and {more} more");
        }

        return listed;
    }

    private static string Reason(TableSource table, ImportMapping mapping) => string.Create(
        CultureInfo.InvariantCulture, $"import of {Short(table.Name)}{(mapping.Time.Assume is null ? "" : "; " + AssumedTime)}");

    // A reason holds no control characters and is short; a file name may be anything.
    private static string Short(string name) => string.Concat(name.EnumerateRunes().Where(r => !System.Text.Rune.IsControl(r)).Take(120).Select(r => r.ToString()));
}
