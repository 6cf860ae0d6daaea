using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Faults.Network;

/// <summary>How the railway stood while something was read; readings of one case share a circuit.</summary>
/// <param name="Settings">Positions, in the order of the owners' names, one an owner.</param>
/// <param name="IsPowered">Whether the boosters were on.</param>
/// <param name="Supply">What stood in for a booster, or null.</param>
internal sealed record CircuitCase(ImmutableArray<Setting> Settings, bool IsPowered, LimitedSupply? Supply)
{
    internal static CircuitCase Of(MeterReading reading) => new(
        Ordered(reading.Settings),
        reading is not (MeterReading.Ohms or MeterReading.Continuity),
        reading.Supply);

    internal IReadOnlyDictionary<PieceId, string> Positions => Settings.ToDictionary(setting => setting.Owner, setting => setting.Position);

    /// <summary>Two cases are the same when nothing that was said differs.</summary>
    public bool Equals(CircuitCase? other) =>
        other is not null && IsPowered == other.IsPowered && Supply == other.Supply && Settings.SequenceEqual(other.Settings);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(IsPowered, Supply, Settings.Length);

    private static ImmutableArray<Setting> Ordered(IEnumerable<Setting> settings) =>
        [.. settings.GroupBy(setting => setting.Owner).Select(group => group.Last()).OrderBy(setting => setting.Owner)];
}
