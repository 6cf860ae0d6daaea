using System.Collections.Immutable;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>Reads gaps: in a section at a distance, or in the joint of an end.</summary>
internal sealed class GapReader(ReadContext context, PieceTable pieces, JoinedTrack joined, SettingReader settings)
{
    private const string Expected = "a gap, for instance { at: loop@100 mm, rails: both } or { at: T1.diverging, rails: left }";

    private readonly Dictionary<object, RailSet> _cut = [];

    public ImmutableArray<Gap> Read(MapReader wiring) =>
        [.. wiring.List("gaps", "a list of gaps").Select(ReadGap).OfType<Gap>()];

    private Gap? ReadGap(TextNode node)
    {
        if (node is not TextNode.Mapping)
        {
            context.WrongShape(node, "a gap", Expected);
            return null;
        }

        MapReader map = new(context, node, FormatKeys.Gap, node.Start);
        RailSet rails = map.Word("rails", Words.Rails(context.Control)) ?? RailSet.Both;
        Setting? bridged = settings.Read(map, "bridged-when");
        if (map.Scalar(map.Require("at", "loop@100 mm, or T1.diverging"), Expected) is not { } at)
        {
            return null;
        }

        GapPlace? place = at.Value.Contains('@', StringComparison.Ordinal) ? InSection(at) : InJoint(at);
        if (place is null)
        {
            return null;
        }

        CheckTwice(at, place, rails);
        return new Gap(place, rails) { BridgedWhen = bridged };
    }

    private GapPlace.InSection? InSection(TextNode.Scalar at)
    {
        if (new PlaceReader(context, pieces).Read(at.Value, at.At(0)) is not { } place)
        {
            return null;
        }

        pieces.Find(place.Section.Name, at.At(0), context, out Piece? piece);
        if (place.MetresFromA > 0 && place.MetresFromA < piece!.PlacesMetres)
        {
            return new GapPlace.InSection(place);
        }

        if (piece is not Piece.Section)
        {
            context.Add(LayoutRules.PlaceOutside, at.At(0), at.Value, $"the end of the bridge of \"{place.Section}\" is a gap already: no rail crosses the edge of its pit",
                "a place within the bridge, or none");
            return null;
        }

        string end = place.MetresFromA > 0 ? "b" : "a";
        context.Add(LayoutRules.PlaceOutside, at.At(0), at.Value, $"a gap at the very end of section \"{place.Section}\" is in the joint there",
            $"at: {place.Section}.{end}");
        return null;
    }

    private GapPlace.InJoint? InJoint(TextNode.Scalar at)
    {
        if (pieces.FindEnd(at.Value, at.At(0), context) is not { } end)
        {
            return null;
        }

        if (joined.At(end) is null && !joined.IsPartial)
        {
            context.Add(LayoutRules.OpenEnd, at.At(0), at.Value, $"the end {end} is not joined to anything, so there is nothing to cut",
                "an end that is joined under \"joined\"");
        }

        return new GapPlace.InJoint(end);
    }

    private void CheckTwice(TextNode.Scalar at, GapPlace place, RailSet rails)
    {
        (object key, RailSet cut) = place switch
        {
            GapPlace.InJoint joint when joined.At(joint.End) is { } met =>
                (met.First, met.First == joint.End ? rails : rails.Across(context.Control)),
            GapPlace.InJoint joint => (joint.End, rails),
            GapPlace.InSection section => ((object)section.Place, rails),
            _ => throw new ArgumentOutOfRangeException(nameof(place), place, "not a place of a gap"),
        };
        RailSet before = _cut.GetValueOrDefault(key);
        if ((before & cut) != 0)
        {
            context.Add(LayoutRules.DescribedTwice, at.At(0), at.Value, $"the gap at {place} is described twice", "each rail of a place once");
        }

        _cut[key] = before | cut;
    }
}
