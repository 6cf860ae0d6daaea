using System.Text.Json.Nodes;
using WireUp.Circuits.Devices;
using WireUp.Circuits.Signals;

namespace WireUp.Output;

/// <summary>What breakers, wires and signal do in time, as JSON; SI units in the keys.</summary>
internal static class ProtectionJson
{
    /// <summary>Adds <c>protection</c> to what <c>power --json</c> prints.</summary>
    public static void Add(JsonObject power, ProtectionReport report) => power["protection"] = Of(report);

    private static JsonObject Of(ProtectionReport report) => new()
    {
        ["districts"] = ResultJson.Array(report.Districts, OneDistrict),
        ["boosters"] = ResultJson.Array(report.Boosters, booster => new JsonObject
        {
            ["booster"] = booster.Booster,
            ["restart"] = OneRestart(booster.Restart),
        }),
        ["rails"] = ResultJson.Array(report.Rails, rail => new JsonObject
        {
            ["code"] = rail.Rail.Code,
            ["alloy"] = rail.Rail.Alloy,
            ["signal-resistance-ratio"] = ResultJson.Number(rail.ResistanceRatio),
        }),
    };

    private static JsonObject OneDistrict(DistrictProtection district) => new()
    {
        ["district"] = district.District,
        ["booster"] = district.Booster,
        ["fault-amps-min"] = ResultJson.Number(district.LeastFault.Amperes),
        ["fault-amps-max"] = ResultJson.Number(district.MostFault.Amperes),
        ["clears-seconds"] = district.Clears is { } clears ? ResultJson.Number(clears.Seconds) : null,
        ["booster-first"] = district.BoosterFirst is { } first
            ? new JsonObject
            {
                ["from-amps"] = ResultJson.Number(first.From.Amperes),
                ["to-amps"] = ResultJson.Number(first.To.Amperes),
                ["breaker-seconds"] = ResultJson.Number(first.BreakerTime.Seconds),
                ["booster-seconds"] = ResultJson.Number(first.BoosterTime.Seconds),
                ["certain"] = first.IsCertain,
            }
            : null,
        ["wires"] = ResultJson.Array(district.Wires, wire => new JsonObject
        {
            ["wire"] = wire.Name,
            ["size"] = wire.Wire.ToString(),
            ["amps"] = ResultJson.Number(wire.Current.Amperes),
            ["clears-seconds"] = ResultJson.Number(wire.Clears.Seconds),
            ["allowed-seconds"] = ResultJson.Number(wire.Allowed.Seconds),
            ["passes"] = wire.Passes,
        }),
        ["restart"] = district.Restart is { } restart ? OneRestart(restart) : null,
        ["bus-ends"] = ResultJson.Array(district.Ends, OneEnd),
    };

    private static JsonObject OneRestart(RestartVerdict restart) => new()
    {
        ["engines-expected"] = restart.Expected,
        ["engines-most"] = restart.Most,
        ["more-not-tried"] = restart.IsMostOpen,
        ["first-amps"] = ResultJson.Number(restart.First.Amperes),
        ["opens-after-seconds"] = restart.OpensAfter is { } opens ? ResultJson.Number(opens.Seconds) : null,
        ["train-that-cannot"] = restart.TrainThatCannot,
    };

    private static JsonObject OneEnd(BusEnd end) => new()
    {
        ["end"] = end.End,
        ["length-metres"] = ResultJson.Number(end.Length.Meters),
        ["inductance-henries"] = ResultJson.Number(end.Inductance.Henries),
        ["resistance-ohms"] = ResultJson.Number(end.Resistance.Ohms),
        ["signal-resistance-ohms"] = ResultJson.Number(end.SignalResistance.Ohms),
        ["load-time-seconds"] = ResultJson.Number(end.LoadTime.Seconds),
        ["allowed-time-seconds"] = ResultJson.Number(end.AllowedTime.Seconds),
        ["slew-volts-per-microsecond"] = ResultJson.Number(end.Slew.VoltsPerMicroseconds),
        ["fault-rise-seconds"] = ResultJson.Number(end.FaultRise.Seconds),
        ["opening-volts"] = ResultJson.Number(end.OpeningVolts.Volts),
        ["ring-hertz"] = ResultJson.Number(end.Ring.Hertz),
        ["peak-volts"] = ResultJson.Number(end.Peak.Volts),
        ["settles-seconds"] = ResultJson.Number(end.Settles.Seconds),
        ["survives-volts"] = ResultJson.Number(end.Survives.Volts),
        ["terminator"] = new JsonObject
        {
            ["resistor-ohms"] = ResultJson.Number(end.Terminator.Resistor.Ohms),
            ["capacitor-farads"] = ResultJson.Number(end.Terminator.Capacitor.Farads),
            ["heat-watts"] = ResultJson.Number((double)end.Terminator.Heat.Watts),
            ["rating-watts"] = ResultJson.Number((double)end.Terminator.Rating.Watts),
            ["peak-volts"] = ResultJson.Number(end.PeakTerminated.Volts),
        },
    };
}
