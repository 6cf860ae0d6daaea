using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>
/// Reads a reading that is said in one sentence, as <see cref="MeterReading"/> says itself: <c>6.3 V at spur@0.6 m under 0.5 A when
/// T1.diverging</c>, <c>stops at siding@1 m</c>, <c>short in east</c>; or the short way with an equals sign, <c>spur@0.6 m=6.3 V under 0.5 A</c>.
/// </summary>
internal sealed class ReadingSentence(ReadContext context, Layout layout)
{
    public const string Example =
        "a sentence such as '6.3 V at spur@0.6 m under 0.5 A', 'spur@0.6 m=14 V', '40 mV from loop.b/left to spur.a/right under 0.5 A at spur@1 m', "
        + "'0.4 ohm from f1/A to spur@0.6 m/left', '1.2 A in f1/A', 'stops at siding@1 m when T1.diverging', 'short in east' or 'pressing at T1.points helps'";

    private static readonly TextPosition Start = new(1, 1, 0);

    private readonly ReadingPointReader _points = new(context, layout);

    /// <summary>Other words for how a locomotive runs.</summary>
    private static readonly ImmutableArray<(string Words, RunningState State)> States =
    [
        ("runs well", RunningState.Runs), ("runs", RunningState.Runs), ("slows", RunningState.Slows), ("slow", RunningState.Slows), ("dim", RunningState.Slows),
        ("stops", RunningState.Stops), ("stalls", RunningState.Stops), ("dead", RunningState.Dead), ("nothing", RunningState.Dead),
    ];

    /// <summary>Whether the words begin as a reading does, so that what is wrong with it is worth saying.</summary>
    public static bool IsMeant(string text) =>
        text.Contains('@', StringComparison.Ordinal) || text.Contains('=', StringComparison.Ordinal) || text.Contains('/', StringComparison.Ordinal)
        || text.StartsWith("pressing at ", StringComparison.Ordinal) || char.IsDigit(text.FirstOrDefault())
        || States.Any(state => text.StartsWith(state.Words + " at ", StringComparison.Ordinal) && text.Contains('.', StringComparison.Ordinal));

    /// <summary>The reading, or null after reporting what is wrong.</summary>
    public MeterReading? Read(string typed)
    {
        string text = string.Join(' ', typed.Split(' ', StringSplitOptions.RemoveEmptyEntries));
        (text, string? fed) = Cut(text, " fed with ");
        (text, string? when) = Cut(text, " when ");
        (text, string? under) = Cut(text, " under ");
        int before = context.Problems.InOrder().Length;
        LimitedSupply? supply = fed is null ? null : Supply(fed);
        ImmutableArray<Setting> settings = when is null ? [] : Settings(when);
        MeterReading? reading = Main(text, under);
        if (reading is null && context.Problems.InOrder().Length == before)
        {
            context.Add(LayoutRules.WrongShape, Start, typed, $"\"{ProblemList.Shorten(typed)}\" is no reading", Example);
        }

        return context.Problems.HasErrors ? null : reading! with { Settings = settings, Supply = supply };
    }

    private static (string Before, string? After) Cut(string text, string word)
    {
        int at = text.LastIndexOf(word, StringComparison.Ordinal);
        return at < 0 ? (text, null) : (text[..at], text[(at + word.Length)..]);
    }

    private MeterReading? Main(string text, string? under)
    {
        int equals = text.IndexOf('=', StringComparison.Ordinal);
        if (equals > 0)
        {
            return Short(text[..equals].Trim(), text[(equals + 1)..].Trim(), under);
        }

        (string before, string? wire) = Cut(text, " in ");
        if (text.StartsWith("pressing at ", StringComparison.Ordinal))
        {
            return Pressed(text["pressing at ".Length..]);
        }

        if (text.StartsWith("breaker of ", StringComparison.Ordinal) || before is "short" or "no short")
        {
            return Breaker(text, before, wire);
        }

        if (Between(text) is { } between)
        {
            return Between(between.What, between.From, between.To, under);
        }

        if (wire is not null)
        {
            return Amps(before, wire, under);
        }

        (string what, string? place) = FirstCut(text, " at ");
        return place is null ? null
            : States.FirstOrDefault(state => state.Words == what) is { Words: not null } state ? Running(state.State, place)
            : Volts(what, place, under);
    }

    /// <summary><c>PLACE=VALUE</c>, <c>POINT &gt; POINT=VALUE</c> or <c>WIRE=AMPERES</c>.</summary>
    private MeterReading? Short(string where, string value, string? under)
    {
        string[] ends = where.Split('>', StringSplitOptions.TrimEntries);
        return ends.Length == 2 ? Between(value, ends[0], ends[1], under)
            : IsOf(QuantityKinds.Amps, value) ? Amps(value, where, under)
            : Volts(value, where, under);
    }

    private static (string What, string From, string To)? Between(string text)
    {
        (string what, string? points) = FirstCut(text, " from ");
        (string from, string? to) = FirstCut(points ?? "", " to ");
        return to is null ? null : (what, from, to);
    }

    private static (string Before, string? After) FirstCut(string text, string word)
    {
        int at = text.IndexOf(word, StringComparison.Ordinal);
        return at < 0 ? (text, null) : (text[..at], text[(at + word.Length)..]);
    }

    private MeterReading? Between(string what, string fromText, string toText, string? under)
    {
        ReadingPoint? from = _points.Point(fromText, Start), to = _points.Point(toText, Start);
        bool? conducts = what switch { "continuity" or "yes" => true, "no continuity" or "no" or "open" => false, _ => null };
        if (from is null || to is null)
        {
            return null;
        }

        if (conducts is { } sounds)
        {
            return new MeterReading.Continuity(from, to, sounds);
        }

        if (IsOf(QuantityKinds.Ohms, what))
        {
            return context.Quantity(what, Start, QuantityKinds.Ohms, Range.Ohms) is { } ohms ? new MeterReading.Ohms(from, to, ohms) : null;
        }

        ReadingLoad? load = Load(under, null);
        return context.Quantity(what, Start, QuantityKinds.Volts, Range.ReadVolts) is { } volts ? new MeterReading.VoltsAlong(from, to, volts) { Load = load } : null;
    }

    private MeterReading.Volts? Volts(string what, string where, string? under)
    {
        ElectricPotential? volts = context.Quantity(what, Start, QuantityKinds.Volts, Range.ReadVolts);
        ReadingPlace? at = _points.Place(where, Start);
        return volts is null || at is null ? null : new(at, volts.Value) { Load = Load(under, at) };
    }

    private MeterReading.Amps? Amps(string what, string where, string? under)
    {
        ElectricCurrent? amps = context.Quantity(what, Start, QuantityKinds.Amps, Range.Amps);
        ReadingPoint? wire = _points.Point(where, Start);
        if (wire is not (null or ReadingPoint.OfFeeder or ReadingPoint.OfBreaker or ReadingPoint.OfBooster))
        {
            context.Add(LayoutRules.UnknownName, Start, where, $"\"{where}\" is not a single wire", "f1/A, breaker east/A or booster main/A");
            return null;
        }

        return amps is null || wire is null ? null : new(wire, amps.Value) { Load = Load(under, null) };
    }

    private MeterReading.Running? Running(RunningState state, string where)
    {
        (where, string? locomotive) = Cut(where, " with ");
        if (locomotive is not null && layout.Stock.Locomotives.All(kind => kind.Name != locomotive))
        {
            context.Add(LayoutRules.UnknownName, Start, locomotive, $"there is no locomotive \"{ProblemList.Shorten(locomotive)}\"",
                context.Expect(locomotive, layout.Stock.Locomotives.Select(kind => kind.Name)));
        }

        return _points.Place(where, Start) is { } at ? new(at, state) { Locomotive = locomotive } : null;
    }

    private MeterReading.Pressed? Pressed(string text)
    {
        const string Helps = " helps", InVain = " does not help";
        bool? worked = text.EndsWith(InVain, StringComparison.Ordinal) ? false : text.EndsWith(Helps, StringComparison.Ordinal) ? true : null;
        return worked is { } helped && _points.Place(text[..^(helped ? Helps : InVain).Length], Start) is { } at ? new(at, helped) : null;
    }

    private MeterReading.Breaker? Breaker(string text, string before, string? inDistrict)
    {
        bool isBreaker = text.StartsWith("breaker of ", StringComparison.Ordinal);
        (string district, bool? trips) = !isBreaker ? (inDistrict ?? "", before == "short")
            : (text["breaker of ".Length..text.LastIndexOf(' ')], text[(text.LastIndexOf(' ') + 1)..] switch { "trips" => true, "holds" => false, _ => (bool?)null });
        if (trips is null)
        {
            return null;
        }

        if (layout.Wiring.Districts.Any(one => one.Name == district))
        {
            return new(district, trips.Value);
        }

        context.Add(LayoutRules.UnknownName, Start, district, $"there is no district \"{ProblemList.Shorten(district)}\"",
            context.Expect(district, layout.Wiring.Districts.Select(one => one.Name)));
        return null;
    }

    private ReadingLoad? Load(string? under, ReadingPlace? here)
    {
        if (under is null)
        {
            return null;
        }

        (string amount, string? where) = FirstCut(under, " at ");
        if (where is null && here is null)
        {
            context.Add(LayoutRules.MissingKey, Start, under, $"\"{ProblemList.Shorten(under)}\" does not say where the load stands", "under 0.5 A at loop@1 m");
            return null;
        }

        return new LoadReader(context, _points, layout).Of(amount, Start, where is null ? here : _points.Place(where, Start));
    }

    private ImmutableArray<Setting> Settings(string text)
    {
        SettingReader reader = new(context, _points.Pieces, layout.Wiring.Switches.ToDictionary(one => one.Name.Name, one => one.Positions));
        return [.. text.Split(',', StringSplitOptions.TrimEntries)
            .Select(one => reader.Read(new TextNode.Scalar(one, true, false, Start, Start.Plus(one.Length)))).OfType<Setting>().OrderBy(one => one.Owner)];
    }

    /// <summary><c>12 V up to 1 A at booster main</c>.</summary>
    private LimitedSupply? Supply(string text)
    {
        (string rest, string? booster) = FirstCut(text, " at booster ");
        (string volts, string? amps) = FirstCut(rest, " up to ");
        if (amps is null || layout.Wiring.Boosters.All(one => one.Name != booster))
        {
            context.Add(LayoutRules.WrongShape, Start, text, $"\"{ProblemList.Shorten(text)}\" is no limited supply", "fed with 12 V up to 1 A at booster main");
            return null;
        }

        return context.Quantity(volts, Start, QuantityKinds.Volts, Range.Volts) is { } given && context.Quantity(amps, Start, QuantityKinds.Amps, Range.Rating) is { } most
            ? new(booster!, given, most)
            : null;
    }

    private static bool IsOf<T>(QuantityKind<T> kind, string text)
        where T : struct => kind.TryRead(text, null, out _) == QuantityFault.None;
}
