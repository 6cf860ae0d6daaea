using System.Collections.Frozen;
using System.Collections.Immutable;

namespace WireUp.Layouts.Reference;

/// <summary>
/// What a plan weighs against what (shared/prices.csv): prices of proposals that may stand in for one another, and points for what is less welcome
/// than something else. Common practice throughout, no published source.
/// </summary>
public static class PriceTable
{
    /// <summary>Every row, in the order of the table.</summary>
    public static ImmutableArray<ReferenceValue> All { get; } = ReferenceTable.Values("prices.csv");

    private static readonly FrozenDictionary<string, ReferenceValue> ByName = All.ToFrozenDictionary(value => value.Name);

    /// <summary>The row of a name.</summary>
    /// <exception cref="KeyNotFoundException">There is no such row.</exception>
    public static ReferenceValue Get(string name) => ByName[name];

    /// <summary>Whole points of a row.</summary>
    /// <exception cref="KeyNotFoundException">There is no such row.</exception>
    public static int Points(string name) => (int)Math.Round(ByName[name].Value);
}
