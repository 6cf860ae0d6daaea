using System.Collections.Immutable;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>
/// Reads where a lead of the meter is held: a rail, <c>loop@1 m/left</c> or <c>T1.points/left</c>; a frog, <c>T1/frog</c>; a wire,
/// <c>f1/A</c>, <c>P1/A</c>, <c>breaker east/A</c>, <c>booster main/A</c>; and the places where both conductors are at hand, the same
/// without the last part.
/// </summary>
internal sealed class ReadingPointReader(ReadContext context, Layout layout)
{
    public const string PlaceExample = "a place such as loop@2.7 m, T1.points, the bus point P1, breaker east or booster main";

    public const string PointExample = "a point such as loop@2.7 m/left, T1.points/right, T1/frog, f1/A, P1/A, breaker east/A or booster main/A";

    private readonly PieceTable _pieces = PieceTable.Of(layout);
    private readonly Dictionary<string, WireOwners> _owners = Owners(layout);

    public PieceTable Pieces => _pieces;

    public ReadingPlace? Place(TextNode.Scalar text) => Place(text.Value, text.At(0));

    public ReadingPlace? Place(string text, TextPosition at)
    {
        if (text.Contains('@', StringComparison.Ordinal))
        {
            return new PlaceReader(context, _pieces).Read(text, at) is { } place ? new ReadingPlace.Along(place) : null;
        }

        if (text.Contains('.', StringComparison.Ordinal))
        {
            return _pieces.FindEnd(text, at, context) is { } end ? new ReadingPlace.AtEnd(end) : null;
        }

        (WireOwners kind, string name) = Split(text);
        if (kind == WireOwners.None && !_owners.ContainsKey(name) && _pieces.TryGet(name, out _))
        {
            // Reported as an end that is not named: a piece is long, and a reading has one place.
            _ = _pieces.FindEnd(name, at, context);
            return null;
        }

        return Owner(kind, name, at, WireOwners.Bus | WireOwners.Breaker | WireOwners.Booster, PlaceExample) switch
        {
            WireOwners.Bus => new ReadingPlace.AtBus(DistrictOf(name), name),
            WireOwners.Breaker => new ReadingPlace.AtBreaker(name),
            WireOwners.Booster => new ReadingPlace.AtBooster(name),
            _ => null,
        };
    }

    public ReadingPoint? Point(TextNode.Scalar text) => Point(text.Value, text.At(0));

    public ReadingPoint? Point(string text, TextPosition at)
    {
        int slash = text.LastIndexOf('/');
        if (slash < 0)
        {
            context.Add(LayoutRules.NotQuantity, at, text, $"\"{ProblemList.Shorten(text)}\" does not say which rail or wire", PointExample);
            return null;
        }

        (string where, string tail) = (text[..slash].TrimEnd(), text[(slash + 1)..].Trim());
        TextPosition tailAt = at.Plus(slash + 1);
        return where.Contains('@', StringComparison.Ordinal) || where.Contains('.', StringComparison.Ordinal) ? OnRail(where, at, tail, tailAt)
            : tail.StartsWith("frog", StringComparison.Ordinal) ? AtFrog(where, at, tail, tailAt)
            : OfWire(where, at, tail, tailAt);
    }

    private ReadingPoint? OnRail(string where, TextPosition at, string tail, TextPosition tailAt)
    {
        ReadingPlace? place = Place(where, at);
        (RailSide first, RailSide second) = RailSides.Of(context.Control);
        RailSide? side = new[] { first, second }.Where(side => RailSides.Word(side) == tail).Select(side => (RailSide?)side).FirstOrDefault();
        if (side is null)
        {
            UnknownWord(tail, tailAt, [RailSides.Word(first), RailSides.Word(second)]);
        }

        return (place, side) switch
        {
            (ReadingPlace.Along along, { } rail) => new ReadingPoint.AtPlace(along.Place, rail),
            (ReadingPlace.AtEnd end, { } rail) => new ReadingPoint.AtEnd(new(end.End, rail)),
            _ => null,
        };
    }

    private ReadingPoint.AtFrog? AtFrog(string where, TextPosition at, string tail, TextPosition tailAt)
    {
        if (!_pieces.Find(where, at, context, out Piece? piece) || piece is null)
        {
            return null;
        }

        ImmutableArray<string> frogs = Frogs.Of(piece);
        if (frogs.IsEmpty)
        {
            context.Add(LayoutRules.UnknownName, at, where, $"\"{where}\" has no frog that carries current", "a turnout or crossing with live frogs, or with isolated ones that are fed");
            return null;
        }

        if (!frogs.Contains(tail))
        {
            UnknownWord(tail, tailAt, frogs);
            return null;
        }

        return new(piece.Id, tail);
    }

    private ReadingPoint? OfWire(string where, TextPosition at, string tail, TextPosition tailAt)
    {
        (WireOwners kind, string name) = Split(where);
        WireOwners owner = Owner(kind, name, at, WireOwners.Any, PointExample);
        Leg? leg = tail switch { "A" => Leg.A, "B" => Leg.B, _ => null };
        if (leg is null)
        {
            UnknownWord(tail, tailAt, ["A", "B"]);
            return null;
        }

        return owner switch
        {
            WireOwners.Feeder => new ReadingPoint.OfFeeder(name, leg.Value),
            WireOwners.Bus => new ReadingPoint.OfBus(DistrictOf(name), name, leg.Value),
            WireOwners.Breaker => new ReadingPoint.OfBreaker(name, leg.Value),
            WireOwners.Booster => new ReadingPoint.OfBooster(name, leg.Value),
            _ => null,
        };
    }

    /// <summary>What bears the name; none, after reporting why, where nothing does or several things do.</summary>
    private WireOwners Owner(WireOwners kind, string name, TextPosition at, WireOwners allowed, string expected)
    {
        WireOwners owners = _owners.GetValueOrDefault(name) & allowed & (kind == WireOwners.None ? WireOwners.Any : kind);
        if (owners == WireOwners.None)
        {
            string what = kind == WireOwners.None ? "nothing of that name can be measured here" : $"there is no {Word(kind)} of that name";
            IEnumerable<string> known = _owners.Where(pair => (pair.Value & allowed & (kind == WireOwners.None ? allowed : kind)) != 0).Select(pair => pair.Key);
            context.Add(LayoutRules.UnknownName, at, name, $"\"{ProblemList.Shorten(name)}\": {what}",
                Spelling.Nearest(name, [.. known]) is { } near ? $"\"{near}\" (did you mean that?)" : expected);
            return WireOwners.None;
        }

        if (!int.IsPow2((int)owners))
        {
            string[] words = [.. Enum.GetValues<WireOwners>().Where(one => int.IsPow2((int)one) && owners.HasFlag(one)).Select(one => $"{Word(one)} {name}")];
            context.Add(LayoutRules.NameTwice, at, name, $"\"{name}\" is the name of more than one thing", Spelling.List(words));
            return WireOwners.None;
        }

        return owners;
    }

    private void UnknownWord(string word, TextPosition at, ImmutableArray<string> known) =>
        context.Add(LayoutRules.UnknownWord, at, word, $"\"{ProblemList.Shorten(word)}\" is not a word used here", context.Expect(word, known));

    private string DistrictOf(string point) =>
        layout.Wiring.Buses.First(bus => bus.Runs.Any(run => run.From == point || run.To == point)).District;

    /// <summary>A name with or without the word that says what it is: <c>breaker east</c>.</summary>
    private static (WireOwners Kind, string Name) Split(string text)
    {
        foreach (WireOwners kind in new[] { WireOwners.Feeder, WireOwners.Bus, WireOwners.Breaker, WireOwners.Booster })
        {
            if (text.StartsWith(Word(kind) + " ", StringComparison.Ordinal))
            {
                return (kind, text[Word(kind).Length..].Trim());
            }
        }

        return (WireOwners.None, text.Trim());
    }

    private static string Word(WireOwners kind) => kind switch
    {
        WireOwners.Feeder => "feeder",
        WireOwners.Bus => "bus",
        WireOwners.Breaker => "breaker",
        WireOwners.Booster => "booster",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "not one kind of thing with wires"),
    };

    private static Dictionary<string, WireOwners> Owners(Layout layout)
    {
        Dictionary<string, WireOwners> owners = new(StringComparer.Ordinal);
        void Add(string name, WireOwners owner) => owners[name] = owners.GetValueOrDefault(name) | owner;
        HashSet<string> boosters = [.. layout.Wiring.Boosters.Select(booster => booster.Name)];
        foreach (string booster in boosters)
        {
            Add(booster, WireOwners.Booster);
        }

        foreach (District district in layout.Wiring.Districts)
        {
            Add(district.Name, WireOwners.Breaker);
        }

        foreach (Feeder feeder in layout.Wiring.Feeders)
        {
            Add(feeder.Name, WireOwners.Feeder);
        }

        foreach (string point in layout.Wiring.Buses.SelectMany(bus => bus.Runs).SelectMany(run => new[] { run.From, run.To }).Where(point => !boosters.Contains(point)))
        {
            Add(point, WireOwners.Bus);
        }

        return owners;
    }
}

/// <summary>What has wires with an A and a B.</summary>
[Flags]
internal enum WireOwners
{
    /// <summary>Nothing.</summary>
    None = 0,

    /// <summary>A feeder.</summary>
    Feeder = 1,

    /// <summary>A point of a bus.</summary>
    Bus = 2,

    /// <summary>A district's breaker.</summary>
    Breaker = 4,

    /// <summary>A booster.</summary>
    Booster = 8,

    /// <summary>Any of them.</summary>
    Any = Feeder | Bus | Breaker | Booster,
}
