using WireUp.Layouts;

namespace WireUp.Planning.Reversing;

/// <summary>The lengths that rule where gaps go, in metres.</summary>
/// <param name="Frog">Nearest a gap may come to a turnout or crossing.</param>
/// <param name="Clear">Where gaps behind the heel of a turnout go when the track is long enough.</param>
/// <param name="Buffer">Shortest track between two reversing sections.</param>
/// <param name="Required">Shortest drive between two gaps that want the section in opposite polarity.</param>
/// <param name="Train">The longest train.</param>
/// <param name="JointReach">How much farther a joiner may be.</param>
/// <param name="RailEnd">Nearest a cut may come to a joint.</param>
internal sealed record Clearances(
    double Frog, double Clear, double Buffer, double Required, double Train, double JointReach, double RailEnd)
{
    internal static Clearances Of(Layout layout, ReversingOptions options)
    {
        double wheelBase = layout.Stock.Locomotives
            .Select(locomotive => locomotive.Pickup.Meters)
            .Append(layout.ShortestPickup.Meters)
            .Max();
        double frog = options.FrogClearance?.Meters ?? wheelBase;
        double train = layout.Stock.Trains.Select(one => one.Length.Meters).Append(layout.LongestTrain.Meters).Max();
        return new(
            frog,
            Math.Max(frog, options.ClearancePoint?.Meters ?? 3 * frog),
            options.Buffer?.Meters ?? 2 * wheelBase,
            (1 + options.LengthMargin.DecimalFractions) * train,
            train,
            options.JointReach.Meters,
            options.ShortestRailEnd.Meters);
    }

    internal Clearances ForTrain(double train) => this with { Train = train, Required = Required / Train * train };
}
