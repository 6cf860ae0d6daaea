using System.Collections.Immutable;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Reading;
using WireUp.Layouts.Reference;

namespace WireUp.Layouts.Writing;

/// <summary>Writes a whole layout file. Bare numbers in it are millimetres.</summary>
internal sealed class LayoutWriter(Layout layout)
{
    private static readonly string[] WithBlankLine = ["defaults:", "track:", "joined:", "joints:", "wiring:", "stock:", "districts-wanted:", "wishes:", "spots:", "benchwork:", "fault-priors:", "papers:", "picture:"];

    public static string Write(Layout layout) => string.Concat(new LayoutWriter(layout).Lines().Select(line => line + "\n"));

    /// <summary>The whole file key by key.</summary>
    public static Snippet.Map Parts(Layout layout) => new LayoutWriter(layout).Root();

    private IEnumerable<string> Lines()
    {
        foreach (string line in BlockLines.Of(Root(), 0))
        {
            if (WithBlankLine.Any(key => line.StartsWith(key, StringComparison.Ordinal)))
            {
                yield return "";
            }

            yield return line;
        }
    }

    private Snippet.Map Root()
    {
        List<(string Key, Snippet Value)> parts = [.. Header().Entries, ("defaults", Defaults()), ("track", Track())];
        AddList(parts, "joined", [.. Chains()]);
        AddMap(parts, "joints", layout.Joints.Where(IsSpecial).Select(joint => (joint.First.ToString(), Of(joint))));
        AddMap(parts, "wiring", new WiringText(layout.Control).Whole(layout.Wiring).Entries);
        AddMap(parts, "stock", StockParts());
        AddMap(parts, "districts-wanted", layout.DistrictsWanted.Select(wish => (wish.Name, (Snippet)Names(wish.Pieces))));
        AddMap(parts, "wishes", WishParts());
        AddMap(parts, "spots", SpotParts());
        AddMap(parts, "benchwork", BenchworkParts());
        AddMap(parts, "fault-priors", FaultPriorParts());
        AddMap(parts, "papers", PapersText.Of(layout.Papers));
        if (layout.Picture is { } picture)
        {
            parts.Add(("picture", PictureText.Of(picture)));
        }

        return new([.. parts]);
    }

    private static void AddMap(List<(string Key, Snippet Value)> parts, string key, IEnumerable<(string Key, Snippet Value)> entries)
    {
        ImmutableArray<(string Key, Snippet Value)> all = [.. entries.Select(entry => (ScalarText.Write(entry.Key), entry.Value))];
        if (!all.IsEmpty)
        {
            parts.Add((key, new Snippet.Map(all)));
        }
    }

    private static void AddList(List<(string Key, Snippet Value)> parts, string key, ImmutableArray<string> items)
    {
        if (!items.IsEmpty)
        {
            parts.Add((key, new Snippet.List(items)));
        }
    }

    private Snippet.Map Header() => Snippet.Of(
        ("wireup", "1"),
        ("name", ScalarText.Write(layout.Name)),
        ("scale", layout.Scale),
        ("control", Words.Of(Words.Control, layout.Control)),
        ("units", "mm"),
        ("lengths", layout.Lengths == LengthStyle.Metric ? null : Words.Of(Words.Lengths, layout.Lengths)),
        ("wire-sizes", layout.WireSizes == Usual.WireSizes(layout.Lengths) ? null : Words.Of(Words.WireSizes, layout.WireSizes)),
        ("longest-train", LengthText.Write(layout.LongestTrain)),
        ("shortest-pickup", LengthText.Write(layout.ShortestPickup)),
        ("max-drop", $"{Numbers.Exact(layout.MaxDrop.Percent)} %"),
        ("max-feeder-distance", LengthText.Write(layout.MaxFeederDistance)));

    private Snippet.Map Defaults()
    {
        LayoutDefaults defaults = layout.Defaults;
        Snippet.Map resistance = Snippet.Of(
            ("joiner", WiringText.Ohms(defaults.Joiner)),
            ("soldered", WiringText.Ohms(defaults.Soldered)),
            ("tap", WiringText.Ohms(defaults.Tap)),
            ("contact", WiringText.Ohms(defaults.Contact)),
            ("connector", WiringText.Ohms(defaults.Connector)),
            ("coin", WiringText.Ohms(defaults.Coin)));
        ImmutableArray<(string, Snippet)> frogWire = defaults.FrogWire is { } wire
            ? [("frog-wire", new Snippet.Leaf($"{LengthText.Write(wire.Length)} {wire.Wire}"))]
            : [];
        return new(
        [
            ("rail", PieceText.Of(defaults.Rail)),
            ("joint", new Snippet.Leaf(Words.Of(Words.Joint, defaults.Joint))),
            ("resistance", resistance),
            ("temperature", new Snippet.Leaf($"{Numbers.Exact(defaults.Temperature.DegreesCelsius)} degC")),
            ("frog", new Snippet.Leaf(Words.Of(Words.Frog, defaults.Frog))),
            .. frogWire,
        ]);
    }

    private Snippet.Map Track() => new([.. layout.Track.Select(piece => (ScalarText.Write(piece.Id.Name), (Snippet)PieceText.Of(piece)))]);

    /// <summary>The joints in their order, those that follow one another through a section in one chain.</summary>
    private IEnumerable<string> Chains()
    {
        Dictionary<PieceId, Piece> pieces = layout.Track.ToDictionary(piece => piece.Id);
        List<string> chain = [];
        TrackEnd last = default;
        foreach (Joint joint in layout.Joints)
        {
            bool goesOn = chain.Count > 0 && pieces[last.Piece] is Piece.Section && last.Name == "a" && joint.First == new TrackEnd(last.Piece, "b");
            if (!goesOn && chain.Count > 0)
            {
                yield return string.Join(" > ", chain);
                chain.Clear();
            }

            if (!goesOn)
            {
                chain.Add(Tip(pieces[joint.First.Piece], joint.First, "b"));
            }

            chain.Add(Tip(pieces[joint.Second.Piece], joint.Second, "a"));
            last = joint.Second;
        }

        if (chain.Count > 0)
        {
            yield return string.Join(" > ", chain);
        }
    }

    private static string Tip(Piece piece, TrackEnd end, string usual) =>
        piece is Piece.Stop || (piece is Piece.Section && end.Name == usual) ? end.Piece.Name : end.ToString();

    private bool IsSpecial(Joint joint) =>
        joint.Kind != layout.Defaults.Joint || joint.Insulated != RailSet.None || joint.Resistance is not null;

    private Snippet Of(Joint joint)
    {
        string? kind = joint.Kind == layout.Defaults.Joint ? null : Words.Of(Words.Joint, joint.Kind);
        bool isInsulated = joint.Insulated != RailSet.None;
        return kind is not null && !isInsulated && joint.Resistance is null
            ? new Snippet.Leaf(kind)
            : Snippet.Of(
                ("kind", kind),
                ("insulated", isInsulated ? "true" : null),
                ("rails", isInsulated ? Words.Of(Words.Rails(layout.Control), joint.Insulated) : null),
                ("resistance", joint.Resistance is { } ohms ? WiringText.Ohms(ohms) : null));
    }

    private IEnumerable<(string Key, Snippet Value)> StockParts()
    {
        Stock stock = layout.Stock;
        List<(string Key, Snippet Value)> parts = [];
        if (stock.MovingAtOnce is { } moving)
        {
            parts.Add(("moving-at-once", new Snippet.Leaf(Numbers.Exact(moving))));
        }

        AddMap(parts, "locomotives", stock.Locomotives.Select(kind => (kind.Name, (Snippet)Of(kind))));
        AddMap(parts, "trains", stock.Trains.Select(train => (train.Name, (Snippet)Of(train))));
        return parts;
    }

    private static Snippet.Map Of(Locomotive kind) => Snippet.Of(
        ("running", WiringText.Amps(kind.Running)),
        ("stopped", WiringText.Amps(kind.Stopped)),
        ("starting", WiringText.Amps(kind.Starting)),
        ("stalled", WiringText.Amps(kind.Stalled)),
        ("draws", kind.Draw == LoadKind.Current ? null : Words.Of(Words.LoadKind, kind.Draw)),
        ("stay-alive", kind.StayAlive is { } capacitors ? $"{Numbers.Exact((double)capacitors.Farads)} F" : null),
        ("charging", kind.Charging.Ohms == DeviceTable.ChargingResistance.Ohms ? null : WiringText.Ohms(kind.Charging)),
        ("pickup", LengthText.Write(kind.Pickup)),
        ("count", kind.Count == 1 ? null : Numbers.Exact(kind.Count)));

    private static Snippet.Map Of(Train train) => Snippet.Of(
        ("locomotives", $"[{string.Join(", ", train.Locomotives.Select(ScalarText.Write))}]"),
        ("lit-cars", Numbers.Exact(train.LitCars)),
        ("lit-car-current", WiringText.Amps(train.LitCarCurrent)),
        ("length", LengthText.Write(train.Length)));

    private IEnumerable<(string Key, Snippet Value)> SpotParts()
    {
        if (!layout.NoFeeder.IsEmpty)
        {
            yield return ("no-feeder", Names(layout.NoFeeder));
        }

        if (!layout.NoGap.IsEmpty)
        {
            yield return ("no-gap", Names(layout.NoGap));
        }

        if (!layout.Stops.IsEmpty)
        {
            yield return ("stops", Names(layout.Stops));
        }
    }

    private List<(string Key, Snippet Value)> FaultPriorParts()
    {
        List<(string Key, Snippet Value)> parts = [];
        if (layout.FaultPriors.AgeYears is { } years)
        {
            parts.Add(("age", new Snippet.Leaf(Numbers.Exact(years))));
        }

        AddMap(parts, "chances", layout.FaultPriors.Chances.OrderBy(chance => chance.Key)
            .Select(chance => (chance.Key.Word(), (Snippet)new Snippet.Leaf($"{Numbers.Exact(Math.Round(100 * chance.Value, 12))} %"))));
        return parts;
    }

    private IEnumerable<(string Key, Snippet Value)> WishParts()
    {
        if (!layout.Wishes.Apart.IsEmpty)
        {
            yield return ("apart", new Snippet.List([.. layout.Wishes.Apart.Select(wish => $"[{string.Join(", ", wish.Tracks.Select(Track))}]")]));
        }

        if (layout.Wishes.WayRound)
        {
            yield return ("way-round", new Snippet.Leaf("true"));
        }

        if (layout.Wishes.Accessories is { } accessories)
        {
            yield return ("accessories", new Snippet.Leaf($"{Numbers.Exact(accessories.Amperes)} A"));
        }

        if (layout.Wishes.Blocks is { } blocks)
        {
            yield return ("blocks", Snippet.Of(
                ("track", blocks.Track.IsEmpty ? null : Names(blocks.Track).Text),
                ("length", blocks.Length is { } length ? LengthText.Write(length) : null),
                ("rails", blocks.BothRails ? "both" : "one")));
        }
    }

    private IEnumerable<(string Key, Snippet Value)> BenchworkParts()
    {
        List<(string Key, Snippet Value)> parts = [];
        AddMap(parts, "boards", layout.Benchwork.Boards.Select(Outline));
        AddMap(parts, "corridors", layout.Benchwork.Corridors.Select(corridor => (corridor.Name, (Snippet)Snippet.Of(
            ("path", PieceText.Of(corridor.Path)), ("closed", corridor.Closed ? "true" : null)))));
        AddMap(parts, "out-of-reach", layout.Benchwork.OutOfReach.Select(Outline));
        return parts;

        static (string, Snippet) Outline(PlanOutline outline) => (outline.Name, new Snippet.Leaf(PieceText.Of(outline.Corners)));
    }

    private static string Track(ImmutableArray<PieceId> pieces) => pieces is [var only] ? ScalarText.Write(only.Name) : Names(pieces).Text;

    private static Snippet.Leaf Names(ImmutableArray<PieceId> pieces) =>
        new($"[{string.Join(", ", pieces.Select(piece => ScalarText.Write(piece.Name)))}]");
}
