using System.Collections.Immutable;

namespace WireUp.Layouts.Reference;

/// <summary>How often one part of a kind is found in a state when somebody looks for a fault.</summary>
/// <param name="Kind">The kind of part.</param>
/// <param name="State">The state.</param>
/// <param name="Chance">Chance of one such part, from 0 to 1.</param>
/// <param name="LeastOhms">Lower end of the resistances met, ohm, or null for a state without one.</param>
/// <param name="MostOhms">Upper end; between the two the logarithm is equally likely everywhere.</param>
/// <param name="Standing">How well the row is founded.</param>
/// <param name="Source">Where it comes from.</param>
public sealed record FaultRate(
    FaultElementKind Kind, FaultState State, double Chance, double? LeastOhms, double? MostOhms, Standing Standing, string Source);

/// <summary>How often parts fail and how (shared/fault-rates.csv).</summary>
public static class FaultTable
{
    /// <summary>Every row, in the order of the table.</summary>
    public static ImmutableArray<FaultRate> Rates { get; } =
    [
        .. ReferenceTable.Read("fault-rates.csv").Select(row => new FaultRate(
            FaultWords.Kind(row.Text("kind")) ?? throw new FormatException($"'{row.Text("kind")}' is no kind of part"),
            FaultWords.State(row.Text("state")) ?? throw new FormatException($"'{row.Text("state")}' is no state of a part"),
            row.Number("chance"), row.OptionalNumber("least-ohms"), row.OptionalNumber("most-ohms"), row.Standing, row.Source)),
    ];

    /// <summary>The rows of one kind of part.</summary>
    public static IEnumerable<FaultRate> Of(FaultElementKind kind) => Rates.Where(rate => rate.Kind == kind);
}
