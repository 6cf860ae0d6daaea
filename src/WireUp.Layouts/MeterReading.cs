using System.Collections.Immutable;
using UnitsNet;

namespace WireUp.Layouts;

/// <summary>
/// One thing that a person measured or saw, with its place. The cases are nested and the list of them is closed.
/// <see cref="object.ToString"/> says it in one sentence, which <see cref="LayoutWords.Sentence"/> reads.
/// </summary>
public abstract record MeterReading
{
    private MeterReading()
    {
    }

    /// <summary>How turnouts and switches stood, as far as was said; the others stood in their first position.</summary>
    public ImmutableArray<Setting> Settings { get; init; } = [];

    /// <summary>The supply that stood in for a booster, or null when the boosters fed the track.</summary>
    public LimitedSupply? Supply { get; init; }

    /// <summary>Its line in the file, from 1; 0 for one that was typed elsewhere.</summary>
    public int Line { get; init; }

    /// <summary>Volts between the two conductors of a place; no sign, since a meter on a digital signal shows none.</summary>
    /// <param name="At">The place.</param>
    /// <param name="Shown">What the meter shows.</param>
    public sealed record Volts(ReadingPlace At, ElectricPotential Shown) : MeterReading
    {
        /// <summary>The load across the track, here or elsewhere, or null for none.</summary>
        public ReadingLoad? Load { get; init; }

        /// <summary><c>6.3 V at spur@0.6 m under 0.5 A</c>.</summary>
        public override string ToString() => $"{ReadingWords.Of(Shown)} at {At}{ReadingWords.Under(Load, At)}{ReadingWords.When(this)}";
    }

    /// <summary>Volts between any two points; no sign.</summary>
    /// <param name="From">One point.</param>
    /// <param name="To">The other.</param>
    /// <param name="Shown">What the meter shows.</param>
    public sealed record VoltsAlong(ReadingPoint From, ReadingPoint To, ElectricPotential Shown) : MeterReading
    {
        /// <summary>The load across the track, or null for none.</summary>
        public ReadingLoad? Load { get; init; }

        /// <summary><c>42 mV from loop.b/left to spur.a/right under 0.5 A at spur@1 m</c>.</summary>
        public override string ToString() => $"{ReadingWords.Of(Shown)} from {From} to {To}{ReadingWords.Under(Load, null)}{ReadingWords.When(this)}";
    }

    /// <summary>Resistance between two points, power off.</summary>
    /// <param name="From">One point.</param>
    /// <param name="To">The other.</param>
    /// <param name="Shown">What the meter shows.</param>
    public sealed record Ohms(ReadingPoint From, ReadingPoint To, ElectricResistance Shown) : MeterReading
    {
        /// <summary><c>0.4 ohm from f1/A to spur@0.6 m/left</c>.</summary>
        public override string ToString() => $"{ReadingWords.Of(Shown)} from {From} to {To}{ReadingWords.When(this)}";
    }

    /// <summary>Whether two points conduct to each other by a buzzer or the meter's beep, power off.</summary>
    /// <param name="From">One point.</param>
    /// <param name="To">The other.</param>
    /// <param name="Conducts">Whether it sounds.</param>
    public sealed record Continuity(ReadingPoint From, ReadingPoint To, bool Conducts) : MeterReading
    {
        /// <summary><c>no continuity from T1.through/left to loop.a/right</c>.</summary>
        public override string ToString() => $"{(Conducts ? "" : "no ")}continuity from {From} to {To}{ReadingWords.When(this)}";
    }

    /// <summary>Current in one wire, by a clamp or a meter put in; no sign.</summary>
    /// <param name="In">The wire: of a feeder, or at a breaker or booster.</param>
    /// <param name="Shown">What the meter shows.</param>
    public sealed record Amps(ReadingPoint In, ElectricCurrent Shown) : MeterReading
    {
        /// <summary>The load across the track, or null for none.</summary>
        public ReadingLoad? Load { get; init; }

        /// <summary><c>1.2 A in f1/A under 2 A at loop@1 m</c>.</summary>
        public override string ToString() => $"{ReadingWords.Of(Shown)} in {In}{ReadingWords.Under(Load, null)}{ReadingWords.When(this)}";
    }

    /// <summary>How a locomotive runs at a place.</summary>
    /// <param name="At">The place.</param>
    /// <param name="State">How it runs.</param>
    public sealed record Running(ReadingPlace At, RunningState State) : MeterReading
    {
        /// <summary>The kind of locomotive by its name in the stock list, or null where it is not said.</summary>
        public string? Locomotive { get; init; }

        /// <summary><c>stops at siding@1 m with switcher</c>.</summary>
        public override string ToString() =>
            $"{ReadingWords.Of(State)} at {At}{(Locomotive is null ? "" : $" with {Locomotive}")}{ReadingWords.When(this)}";
    }

    /// <summary>Whether the breaker of a district trips, no train drawing more than usual.</summary>
    /// <param name="District">The district.</param>
    /// <param name="Trips">Whether it trips.</param>
    public sealed record Breaker(string District, bool Trips) : MeterReading
    {
        /// <summary><c>breaker of east trips when T1.diverging</c>.</summary>
        public override string ToString() => $"breaker of {District} {(Trips ? "trips" : "holds")}{ReadingWords.When(this)}";
    }

    /// <summary>Whether pressing or wiggling at a place made the trouble go away for the moment.</summary>
    /// <param name="At">The place.</param>
    /// <param name="Worked">Whether it did.</param>
    public sealed record Pressed(ReadingPlace At, bool Worked) : MeterReading
    {
        /// <summary><c>pressing at T1.through helps</c>.</summary>
        public override string ToString() => $"pressing at {At} {(Worked ? "helps" : "does not help")}{ReadingWords.When(this)}";
    }
}

/// <summary>How a locomotive runs, best first.</summary>
public enum RunningState
{
    /// <summary>As well as anywhere.</summary>
    Runs,

    /// <summary>Noticeably slower, or its lights are dimmer.</summary>
    Slows,

    /// <summary>It stops, and starts again when nudged or when it starts from better track.</summary>
    Stops,

    /// <summary>Nothing at all: no light, no sound.</summary>
    Dead,
}
