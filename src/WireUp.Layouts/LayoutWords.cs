using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Reading;
using WireUp.Layouts.Text;

namespace WireUp.Layouts;

/// <summary>Something read from a few words, or why it could not be.</summary>
/// <param name="Value">What was read, or null.</param>
/// <param name="Trouble">Null when it was read; else what is wrong and what would be right, one sentence.</param>
public readonly record struct WordsRead<T>(T? Value, string? Trouble)
    where T : struct;

/// <summary>A reading read from a sentence, or why it could not be.</summary>
/// <param name="Value">What was read, or null.</param>
/// <param name="Trouble">Null when it was read; else what is wrong and what would be right, one sentence.</param>
public readonly record struct ReadingRead(MeterReading? Value, string? Trouble);

/// <summary>Places and quantities in the words of the layout file, where they stand alone: on a command line, in a form.</summary>
public static class LayoutWords
{
    /// <summary>A place along a section or moving bridge of a layout: <c>loop@1.25 m</c>; bare numbers are millimetres, negative ones count from end b.</summary>
    public static WordsRead<TrackPlace> Place(Layout layout, string text) => Read(context => new PlaceReader(context, PieceTable.Of(layout)).Read(text, Start));

    /// <summary>A current from 0 to 1000 A: <c>0.5 A</c>, <c>250 mA</c>.</summary>
    public static WordsRead<ElectricCurrent> Current(string text) => Read(context => context.Quantity(text, Start, QuantityKinds.Amps, Reading.Range.Amps));

    /// <summary>A low voltage, from 0.1 V to 60 V: <c>14.5 V</c>.</summary>
    public static WordsRead<ElectricPotential> Volts(string text) => Read(context => context.Quantity(text, Start, QuantityKinds.Volts, Reading.Range.Volts));

    /// <summary>A percentage from 0.01 % to 50 %: <c>5 %</c>.</summary>
    public static WordsRead<Ratio> Percent(string text) => Read(context => context.Quantity(text, Start, QuantityKinds.Percent, Reading.Range.Drop));

    /// <summary>A temperature from −60 to 150 degC: <c>20 degC</c>, <c>68 degF</c>.</summary>
    public static WordsRead<Temperature> Temperature(string text) => Read(context => context.Quantity(text, Start, QuantityKinds.Temperature, Reading.Range.Celsius));

    /// <summary>A power from 0.1 W to 100 kW: <c>7 W</c>.</summary>
    public static WordsRead<Power> Power(string text) => Read(context => context.Quantity(text, Start, QuantityKinds.Watts, Reading.Range.Watts));

    /// <summary>A resistance from 1 mohm to 1000 kohm: <c>30 ohm</c>.</summary>
    public static WordsRead<ElectricResistance> Resistance(string text) => Read(context => context.Quantity(text, Start, QuantityKinds.Ohms, Reading.Range.LoadOhms));

    /// <summary>A length from 1 mm to 10 km: <c>2.4 m</c>, <c>7 ft 6 in</c>; bare numbers are millimetres.</summary>
    public static WordsRead<Length> Length(string text) => Read(context => context.Quantity(text, Start, QuantityKinds.Length, Reading.Range.TrackLength));

    /// <summary>An angle from 0 to 360 deg: <c>90 deg</c>.</summary>
    public static WordsRead<Angle> Turn(string text) => Read(context => context.Quantity(text, Start, QuantityKinds.Degrees, Reading.Range.Turn));

    /// <summary>A point of the plan: <c>900, 1.2 m</c>; bare numbers are millimetres, x to the right and y up.</summary>
    public static WordsRead<PlanPoint> Point(string text) => Read(context => PointOf(context, text));

    /// <summary>Points of the plan separated by semicolons, at least one: <c>0, 0; 900, 0; 1.3 m, 400</c>.</summary>
    public static WordsRead<ImmutableArray<PlanPoint>> Points(string text) => Read<ImmutableArray<PlanPoint>>(context =>
    {
        PlanPoint?[] points = [.. text.Trim().TrimEnd(';').Split(';').Select(part => PointOf(context, part))];
        return points.Contains(null) ? null : [.. points.OfType<PlanPoint>()];
    });

    /// <summary>A route of a layout: pieces, ends or places in order, <c>yard-1 &gt; T3 &gt; loop@2 m</c>; at least one.</summary>
    public static WordsRead<ImmutableArray<RouteStop>> Route(Layout layout, string text) =>
        Read(context => new RouteReader(context, PieceTable.Of(layout)).Read(text, Start));

    /// <summary>Sizes of wire separated by commas, at least one: <c>1.5 mm2, 12 AWG</c>.</summary>
    public static WordsRead<ImmutableArray<Wire>> Wires(string text) => Read<ImmutableArray<Wire>>(context =>
    {
        Wire?[] wires = [.. text.Split(',').Select(part => context.Wire(part.Trim(), Start))];
        return wires.Contains(null) ? null : [.. wires.OfType<Wire>()];
    });

    /// <summary>A reading or symptom in one sentence: <c>6.3 V at spur@0.6 m under 0.5 A</c>, <c>stops at siding@1 m when T1.diverging</c>.</summary>
    /// <param name="layout">The layout it was made on.</param>
    /// <param name="text">The sentence.</param>
    public static ReadingRead Sentence(Layout layout, string text)
    {
        ProblemList problems = new("");
        MeterReading? reading = new ReadingSentence(new ReadContext(problems) { Control = layout.Control }, layout).Read(text);
        return new(reading, reading is null ? Trouble(problems.InOrder()[0]) : null);
    }

    /// <summary>A tool by its word in the readings file, <c>load</c>, or null.</summary>
    public static ReadingTools? Tool(string word) =>
        Words.Tools.Where(tool => tool.Word == word).Select(tool => (ReadingTools?)tool.Value).FirstOrDefault();

    /// <summary>Whether the words are meant as a reading, with a place or a value in them, rather than as a symptom in free words.</summary>
    public static bool IsReading(string text) => ReadingSentence.IsMeant(text.Trim());

    private static PlanPoint? PointOf(ReadContext context, string text)
    {
        string[] parts = text.Split(',', StringSplitOptions.TrimEntries);
        if (parts.Length != 2)
        {
            context.Add(LayoutRules.WrongShape, Start, text, $"\"{ProblemList.Shorten(text.Trim())}\" is not a point", "x and y with a comma between them, for instance 900, 400");
            return null;
        }

        return context.Quantity(parts[0], Start, QuantityKinds.Length, Reading.Range.Plan) is { } x && context.Quantity(parts[1], Start, QuantityKinds.Length, Reading.Range.Plan) is { } y
            ? new PlanPoint(x.Meters, y.Meters)
            : null;
    }

    private static TextPosition Start => new(1, 1, 0);

    private static WordsRead<T> Read<T>(Func<ReadContext, T?> read)
        where T : struct
    {
        ProblemList problems = new("");
        T? value = read(new ReadContext(problems));
        return new(value, value is null ? Trouble(problems.InOrder()[0]) : null);
    }

    private static string Trouble(LayoutProblem problem) => $"{problem.Message}; expected {problem.Expected}";
}
