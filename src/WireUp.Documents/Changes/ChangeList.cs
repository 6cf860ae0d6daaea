using System.Collections.Immutable;
using WireUp.Documents.Changes;
using WireUp.Layouts;

namespace WireUp.Documents;

/// <summary>Everything to do to make one layout out of another: for wiring a new section onto an old layout.</summary>
/// <param name="Comparison">How the layouts differ.</param>
/// <param name="Changes">What to do, in the order of work: track first, then joints and gaps, devices, bus, feeders, contacts.</param>
/// <param name="Schedule">Every wire of the later layout; the wires that are to be laid are those that are not built.</param>
public sealed record ChangeList(LayoutComparison Comparison, ImmutableArray<Change> Changes, Schedule Schedule)
{
    /// <summary>Compares two layouts.</summary>
    /// <param name="before">The earlier one.</param>
    /// <param name="after">The later one.</param>
    /// <param name="options">How the schedule is made, or null for the usual.</param>
    public static ChangeList Of(Layout before, Layout after, ScheduleOptions? options = null)
    {
        LayoutComparison comparison = LayoutComparison.Of(before, after);
        IEnumerable<Change> changes = comparison.Differences.Select(ChangeWords.Of);
        return new(
            comparison,
            [.. changes.Concat(ContactChanges.Of(comparison))],
            Schedule.Of(after, options, comparison.Before));
    }

    /// <summary>How many of each part and kind there are, in the order of the list.</summary>
    public IEnumerable<(string Part, DifferenceKind Kind, int Count)> Counts =>
        Changes.GroupBy(change => (change.Part, change.Kind)).Select(alike => (alike.Key.Part, alike.Key.Kind, alike.Count()));

    /// <summary>The schedule of only those wires that are to be laid.</summary>
    public Schedule NewWires => Schedule with { Wires = [.. Schedule.ToDo] };
}
