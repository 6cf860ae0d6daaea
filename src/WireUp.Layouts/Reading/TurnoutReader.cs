using UnitsNet;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>Reads turnouts: those of two legs, and those of more.</summary>
internal sealed class TurnoutReader(ReadContext context, LayoutDefaults defaults)
{
    /// <summary>Keys of their own that people write behind <c>turnout</c>.</summary>
    private static readonly string[] Shapes = ["curved", "stub"];

    private readonly FrogReader _frogs = new(context, defaults);

    /// <summary>Whether a mapping with the key <c>turnout</c> is one of more than two legs.</summary>
    public static bool IsMulti(TextNode.Mapping mapping) => mapping.Entries.Any(entry =>
        entry.Key.Value == "legs" || entry is { Key.Value: "turnout", Value: TextNode.Scalar { Value: "three-way" or "multi" } });

    /// <summary>A turnout of two legs.</summary>
    public Piece.Turnout? Read(PieceId id, MapReader map)
    {
        TurnoutHand? hand = ReadHand(map);
        ReadFrog frog = _frogs.Read(map);
        Piece.Turnout turnout = new(id, hand ?? TurnoutHand.Left, frog.Kind)
        {
            Feed = frog.Feed,
            Curved = map.Flag("curved") ?? false,
            Stub = map.Flag("stub") ?? false,
            PowerRouting = _frogs.PowerRouting(map, frog.Kind),
            HeelInFrog = map.Word("heel", Words.Heel) ?? false,
            EarlyContact = map.Word("contact", Words.Contact) ?? false,
            CopperClad = map.Word("ties", Words.Ties) ?? false,
            Uncut = ReadUncut(map),
            Number = map.Number("number", Range.FrogNumber),
            Length = map.Quantity("length", QuantityKinds.Length, Range.Fitting),
            DeadLength = map.Quantity("dead-length", QuantityKinds.Length, Range.Fitting),
        };
        CheckShape(turnout, map);
        CheckFrog(turnout, map);
        return hand is null ? null : turnout;
    }

    /// <summary>The hand; what else people say here has a key of its own.</summary>
    private TurnoutHand? ReadHand(MapReader map)
    {
        string said = (map.Find("turnout")?.Value as TextNode.Scalar)?.Value ?? "";
        if (Shapes.FirstOrDefault(key => said.Contains(key, StringComparison.OrdinalIgnoreCase)) is not { } key)
        {
            return map.Word("turnout", Words.Turnouts)?.Hand;
        }

        string hand = said.Contains("right", StringComparison.OrdinalIgnoreCase) ? "\"turnout: right\"" : said.Contains("left", StringComparison.OrdinalIgnoreCase)
            ? "\"turnout: left\"" : "\"turnout: left\" or \"turnout: right\"";
        context.Add(LayoutRules.UnknownWord, map.Find("turnout")!.Value.Start, said, $"\"{ProblemList.Shorten(said)}\" is not a word used here",
            $"{hand} beside \"{key}: true\"");
        return null;
    }

    /// <summary>A turnout of three legs or more.</summary>
    public Piece.MultiTurnout? ReadMulti(PieceId id, MapReader map)
    {
        TurnoutShape? shape = map.Word("turnout", Words.Turnouts);
        int? legs = shape is { Legs: null } ? ReadLegs(map) : FixedLegs(shape, map);
        ReadFrog frog = _frogs.Read(map);
        bool routing = _frogs.PowerRouting(map, frog.Kind);
        Length? length = map.Quantity("length", QuantityKinds.Length, Range.Fitting);
        Length? dead = map.Quantity("dead-length", QuantityKinds.Length, Range.Fitting);
        return legs is null
            ? null
            : new Piece.MultiTurnout(id, legs.Value, frog.Kind) { Feed = frog.Feed, PowerRouting = routing, Length = length, DeadLength = dead };
    }

    private static int? ReadLegs(MapReader map)
    {
        Range range = Range.Count(Range.FewestLegs, Range.MostLegs);
        map.Require("legs", range.Words);
        return map.Whole("legs", Range.FewestLegs, Range.MostLegs);
    }

    /// <summary>The legs that the word itself says; null for a turnout of two, which has no key for them.</summary>
    private int? FixedLegs(TurnoutShape? shape, MapReader map)
    {
        if (shape is { Legs: { } known })
        {
            string word = map.Scalar(map.Find("turnout"), "")!.Value;
            _frogs.OnlyWhere(false, map, "legs", $"\"turnout: {word}\" says that there are {(known == 2 ? "two" : "three")} legs",
                "\"turnout: multi\" beside \"legs\", or no \"legs\"");
        }

        return shape?.Legs is > 2 ? shape.Value.Legs : null;
    }

    private TieZones ReadUncut(MapReader map)
    {
        TieZones zones = TieZones.None;
        foreach (TextNode node in map.List("uncut", "a list of parts, for instance [switch, closure]"))
        {
            if (node is TextNode.Scalar { IsNull: false } word)
            {
                zones |= map.Word(word, Words.TieZones) ?? TieZones.None;
            }
            else
            {
                context.WrongShape(node, "a part of the turnout", Spelling.List([.. Words.TieZones.Select(zone => zone.Word)]));
            }
        }

        return zones;
    }

    private void CheckShape(Piece.Turnout turnout, MapReader map)
    {
        if (turnout.Curved)
        {
            _frogs.OnlyWhere(turnout.Hand != TurnoutHand.Wye, map, "curved", "the legs of a wye curve to either side, not both to one",
                "\"turnout: left\" or \"turnout: right\" beside \"curved\"");
        }

        bool isOther = map.Find("ties")?.Value is null or TextNode.Scalar { Value: "insulating" };
        _frogs.OnlyWhere(!isOther, map, "uncut", "\"uncut\" says where the foil of copper-clad ties is whole, but the ties are not of that kind",
            "\"ties: copper-clad\" beside \"uncut\"");
        if (turnout.PowerRouting)
        {
            _frogs.OnlyWhere(!turnout.Stub, map, "power-routing", "a stub turnout has no blades that could feed the rails beyond the frog",
                "\"stub: true\" without \"power-routing\"");
        }
    }

    private void CheckFrog(Piece.Turnout turnout, MapReader map)
    {
        if (turnout.HeelInFrog)
        {
            _frogs.OnlyWhere(turnout.Frog == FrogKind.Isolated, map, "heel",
                $"\"heel: frog\" describes an isolated frog, but the frog is {FrogReader.InWords(map, turnout.Frog)}", "\"frog: isolated\" beside \"heel: frog\"");
        }

        if (turnout.EarlyContact)
        {
            _frogs.OnlyWhere(turnout.Feed == FrogFeed.Contact, map, "contact", "\"contact\" says when the contact of the frog changes over, but there is none",
                "\"frog-feed: contact\" beside \"contact: early\"");
        }
    }
}
