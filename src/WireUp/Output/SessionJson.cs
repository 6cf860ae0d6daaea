using System.Text.Json.Nodes;
using WireUp.Circuits.Sessions;

namespace WireUp.Output;

/// <summary>Operating sessions as JSON, in the manner of <see cref="ResultJson"/>.</summary>
internal static class SessionJson
{
    /// <summary>The key <c>session</c> of <c>power --json</c>.</summary>
    public static JsonObject Of(SessionReport report, LoadingComparison loading) => new()
    {
        ["hours"] = ResultJson.Number(report.Options.Length.Hours),
        ["seed"] = report.Options.Seed,
        ["sessions"] = report.Sessions,
        ["sure"] = report.IsSure,
        ["stopped"] = report.WasStopped,
        ["traffic"] = Traffic(report.Traffic),
        ["districts"] = ResultJson.Array(loading.Districts, Row),
        ["boosters"] = ResultJson.Array(loading.Boosters, Row),
        ["railway"] = Row(loading.Railway),
    };

    private static JsonObject Traffic(SessionTraffic traffic) => new()
    {
        ["trips"] = ResultJson.Number(traffic.Trips),
        ["waits"] = ResultJson.Number(traffic.Waits),
        ["other-ways"] = ResultJson.Number(traffic.OtherWays),
        ["lifted"] = ResultJson.Number(traffic.Lifted),
        ["moving"] = ResultJson.Number(traffic.Moving),
        ["moving-at-once"] = traffic.MovingAtOnce,
        ["trains"] = traffic.Units,
        ["not-made-up"] = ResultJson.Array(traffic.NotMadeUp, name => JsonValue.Create(name)),
        ["left-over"] = ResultJson.Array(traffic.LeftOver, name => JsonValue.Create(name)),
        ["assumed"] = traffic.IsAssumed,
    };

    private static JsonObject Row(LoadingRow row) => new()
    {
        ["name"] = row.Operated.Name,
        ["track-metres"] = ResultJson.Number(row.Operated.Track.Meters),
        ["rule-amps"] = ResultJson.Number(row.Rule.Amperes),
        ["placed-amps"] = row.Placed is { } placed ? ResultJson.Number(placed.Amperes) : null,
        ["mean-amps"] = ResultJson.Number(row.Operated.Mean.Amperes),
        ["mean-error-amps"] = ResultJson.Number(row.Operated.MeanError.Amperes),
        ["percentiles"] = ResultJson.Array(row.Operated.Percentiles, percentile => new JsonObject
        {
            ["percent"] = ResultJson.Number(percentile.Part.Percent),
            ["amps"] = ResultJson.Number(percentile.Current.Amperes),
            ["low-amps"] = ResultJson.Number(percentile.Low.Amperes),
            ["high-amps"] = ResultJson.Number(percentile.High.Amperes),
            ["standard-error-amps"] = ResultJson.Number(percentile.StandardError.Amperes),
        }),
        ["largest-amps"] = ResultJson.Number(row.Operated.Largest.Amperes),
        ["message"] = row.Verdict,
    };
}
