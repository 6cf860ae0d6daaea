using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Documents;

/// <summary>Every wire of a layout, in the order of work: bus by district, feeders, frogs.</summary>
/// <param name="Wires">The wires; ids are unique.</param>
public sealed record Schedule(ImmutableArray<ScheduledWire> Wires)
{
    /// <summary>Lists the wires of a layout.</summary>
    /// <param name="layout">The layout with its wiring.</param>
    /// <param name="options">How, or null for the usual.</param>
    /// <param name="before">The layout as it is built, to tell what is there already; null where nothing is.</param>
    public static Schedule Of(Layout layout, ScheduleOptions? options = null, Layout? before = null) =>
        new ScheduleBuilder(layout, options ?? ScheduleOptions.For(layout.Lengths), before).Build();

    /// <summary>In which units its lengths are told.</summary>
    public LengthStyle Lengths { get; init; } = LengthStyle.Metric;

    /// <summary>The wires that are still to be laid.</summary>
    public IEnumerable<ScheduledWire> ToDo => Wires.Where(wire => !wire.IsBuilt);

    /// <summary>Cut lengths of the wires still to be laid, together.</summary>
    public Length TotalToCut => Length.FromMeters(ToDo.Sum(wire => wire.CutLength.Meters));

    /// <summary>The schedule as comma-separated values; see <see cref="ScheduleCsv"/>.</summary>
    public string ToCsv() => ScheduleCsv.Write(this);
}
