using System.Text.Json.Nodes;
using WireUp.Circuits.Trains;

namespace WireUp.Output;

/// <summary>The worst places of trains as JSON.</summary>
internal static class TrainJson
{
    /// <summary>Adds <c>trains</c> to what <c>power --json</c> prints.</summary>
    public static JsonObject Add(JsonObject power, WorstTrainsReport report)
    {
        power["trains"] = new JsonObject
        {
            ["spacing-metres"] = ResultJson.Number(report.Spacing.Meters),
            ["trains"] = ResultJson.Array(report.Trains, train => new JsonObject
            {
                ["name"] = train.Name,
                ["engine-amps"] = ResultJson.Number(train.Engines.Amperes),
                ["lit-cars"] = train.LitCars,
                ["lit-car-amps"] = ResultJson.Number(train.LitCar.Amperes),
                ["length-metres"] = ResultJson.Number(train.Length.Meters),
            }),
            ["districts"] = ResultJson.Array(report.Districts, One),
        };
        return power;
    }

    private static JsonObject One(DistrictTrains district) => new()
    {
        ["district"] = district.District,
        ["lowest-volts"] = ResultJson.Number(district.LowestVolts.Volts),
        ["drop-volts-at-least"] = ResultJson.Number(district.AtLeast.Volts),
        ["drop-volts-at-most"] = ResultJson.Number(district.AtMost.Volts),
        ["search"] = district.IsSearchCut ? "cut short" : "complete",
        ["places"] = ResultJson.Array(district.Trains, train => new JsonObject
        {
            ["train"] = train.Train,
            ["at"] = train.At.ToString(),
            ["facing"] = train.Facing,
            ["district"] = train.District,
            ["volts"] = ResultJson.Number(train.Volts.Volts),
        }),
    };
}
