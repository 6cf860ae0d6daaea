using System.Collections.Immutable;
using System.Text.Json;
using WireUp.Web.Folders;

namespace WireUp.Web.Desk;

/// <summary>
/// Ticks of the work sheet, in a file beside the layout. A tick is one change to what is in the file at that moment, so that several
/// people who tick at once lose nothing of each other's.
/// </summary>
internal sealed class WorkSheetDesk(ILayoutFolder folder)
{
    private const int MostTries = 5;
    private static readonly JsonSerializerOptions Written = new() { WriteIndented = true };

    /// <summary>The ids of the wires that are done.</summary>
    public ProgressReading Read(LayoutName name) => Read(folder.Read(name, FileRole.Progress)).Reading;

    /// <summary>Ticks a wire, or takes the tick away.</summary>
    /// <returns>What is done afterwards, or why nothing was changed.</returns>
    public ProgressReading Tick(LayoutName name, string wire, bool isDone)
    {
        for (int i = 0; i < MostTries; i++)
        {
            (ProgressReading now, string? version) = Read(folder.Read(name, FileRole.Progress));
            if (now.Trouble is not null) return now;
            ImmutableSortedSet<string> changed = isDone ? now.Done.Add(wire) : now.Done.Remove(wire);
            switch (folder.Save(name, FileRole.Progress, Text(changed), version))
            {
                case SaveOutcome.Saved:
                    return new(changed, null);
                case SaveOutcome.Refused refused:
                    return now with { Trouble = refused.Reason };
                default:
                    continue;
            }
        }

        return Read(name) with { Trouble = "Others are ticking at this moment and it could not be saved; tick it again." };
    }

    private static string Text(ImmutableSortedSet<string> done) =>
        JsonSerializer.Serialize(new Dictionary<string, string[]> { ["done"] = [.. done] }, Written) + "\n";

    private static (ProgressReading Reading, string? Version) Read(StoredFile file)
    {
        switch (file)
        {
            case StoredFile.Missing:
                return (ProgressReading.Nothing, null);
            case StoredFile.Unreadable unreadable:
                return (ProgressReading.Nothing with { Trouble = unreadable.Reason }, null);
            case StoredFile.Found found:
                try
                {
                    Dictionary<string, string[]>? read = JsonSerializer.Deserialize<Dictionary<string, string[]>>(found.Text);
                    return (new((read?.GetValueOrDefault("done") ?? []).Where(id => id is not null).ToImmutableSortedSet(StringComparer.Ordinal), null), found.Version);
                }
                catch (JsonException)
                {
                    return (ProgressReading.Nothing with { Trouble = "The file of what is done cannot be read; mend it or move it away. Nothing is changed in it." }, null);
                }

            default:
                throw new InvalidOperationException("not an outcome of reading");
        }
    }
}

/// <summary>What of a work sheet is done.</summary>
/// <param name="Done">Ids of wires, in order.</param>
/// <param name="Trouble">Why it cannot be told or changed; null where all is well.</param>
internal sealed record ProgressReading(ImmutableSortedSet<string> Done, string? Trouble)
{
    public static readonly ProgressReading Nothing = new(ImmutableSortedSet.Create<string>(StringComparer.Ordinal), null);
}
