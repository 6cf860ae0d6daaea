using System.Globalization;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Faults.Next;

/// <summary>A reading that could be made, and what it costs.</summary>
/// <param name="Reading">The reading, with 0 in place of what it will show.</param>
/// <param name="Reach">From where its farthest point is reached.</param>
/// <param name="Minutes">Minutes of work. Common practice (shared/constants.csv, rows minutes-…).</param>
internal sealed record Candidate(MeterReading Reading, Reach Reach, double Minutes)
{
    private static readonly double AtRails = Constants.Get("minutes-rails").Value, Below = Constants.Get("minutes-below").Value;
    private static readonly double Lead = Constants.Get("minutes-lead").Value, Load = Constants.Get("minutes-load").Value;
    private static readonly double Look = Constants.Get("minutes-look").Value;
    private static readonly double PowerOff = Constants.Get("minutes-power-off").Value;

    internal static Candidate Of(MeterReading reading) => reading switch
    {
        MeterReading.Volts volts => Of(reading, IsBelow(volts.At), volts.Load is null ? 0 : Load),
        MeterReading.VoltsAlong volts => Of(reading, IsBelow(volts.From) || IsBelow(volts.To), Along(volts.From, volts.To) + (volts.Load is null ? 0 : Load)),
        MeterReading.Ohms ohms => Of(reading, IsBelow(ohms.From) || IsBelow(ohms.To), Along(ohms.From, ohms.To) + PowerOff),
        MeterReading.Breaker => new(reading, Reach.Above, Look),
        MeterReading.Amps amps => Of(reading, true, amps.Load is null ? 0 : Load),
        _ => throw new InvalidOperationException($"not a reading to be suggested: {reading}"),
    };

    /// <summary>What to do, in words.</summary>
    internal string Words => Reading switch
    {
        MeterReading.Volts volts => $"volts at {volts.At}{Under(volts.Load, volts.At)}{When()}",
        MeterReading.VoltsAlong volts => $"volts from {volts.From} to {volts.To}{Under(volts.Load, null)}{When()}",
        MeterReading.Ohms ohms => $"ohms from {ohms.From} to {ohms.To}, power off, trains off{When()}",
        MeterReading.Breaker breaker => $"look whether the breaker of {breaker.District} trips",
        MeterReading.Amps amps => $"current in {amps.In}{Under(amps.Load, null)}{When()}",
        _ => throw new InvalidOperationException($"not a reading to be suggested: {Reading}"),
    };

    private static Candidate Of(MeterReading reading, bool isBelow, double more) =>
        new(reading, isBelow ? Reach.Below : Reach.Above, (isBelow ? Below : AtRails) + more + (reading.Supply is null ? 0 : Look));

    private static string Under(ReadingLoad? load, ReadingPlace? at) => load is null
        ? ", no load"
        : string.Create(CultureInfo.InvariantCulture, $", a load of {load.Amps.Amperes} A across {(load.At == at ? "it" : load.At.ToString())}");

    private string When()
    {
        string settings = Reading.Settings.IsEmpty ? "" : $", {string.Join(" and ", Reading.Settings)}";
        return Reading.Supply is { } supply
            ? string.Create(CultureInfo.InvariantCulture, $"{settings}, fed with {supply.Volts.Volts} V up to {supply.Amps.Amperes} A at booster {supply.Booster}, less what it shows with that off")
            : settings;
    }

    /// <summary>A long lead is needed between points that are not of one piece, one joint, one feeder.</summary>
    private static double Along(ReadingPoint from, ReadingPoint to) => Where(from) == Where(to) || AreNear(from, to) ? 0 : Lead;

    private static bool AreNear(ReadingPoint from, ReadingPoint to) => (from, to) switch
    {
        (ReadingPoint.AtEnd, ReadingPoint.AtEnd) => true,
        (ReadingPoint.OfFeeder, ReadingPoint.OfBooster or ReadingPoint.OfBreaker) or (ReadingPoint.OfBooster or ReadingPoint.OfBreaker, _) => false,
        (ReadingPoint.OfFeeder, _) or (_, ReadingPoint.OfFeeder) => true,
        (ReadingPoint.OfBus, ReadingPoint.OfBus) => true,
        _ => false,
    };

    private static string? Where(ReadingPoint point) => point switch
    {
        ReadingPoint.AtPlace at => at.Place.Section.Name,
        ReadingPoint.AtEnd at => at.Rail.End.Piece.Name,
        ReadingPoint.AtFrog frog => frog.Piece.Name,
        _ => null,
    };

    private static bool IsBelow(ReadingPlace place) => place is ReadingPlace.AtBus or ReadingPlace.AtBreaker or ReadingPlace.AtBooster;

    private static bool IsBelow(ReadingPoint point) => point is not (ReadingPoint.AtPlace or ReadingPoint.AtEnd or ReadingPoint.AtFrog);
}
