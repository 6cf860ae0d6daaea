using System.Collections.Frozen;
using System.Collections.Immutable;

namespace WireUp.Layouts.Comparing;

/// <summary>Gives pieces other names wherever a layout speaks of them.</summary>
internal sealed class RenamedLayout(FrozenDictionary<PieceId, PieceId> names)
{
    public Layout Of(Layout layout) => names.Count == 0 ? layout : layout with
    {
        Track = [.. layout.Track.Select(piece => names.TryGetValue(piece.Id, out PieceId name) ? piece.Named(name) : piece)],
        Joints = [.. layout.Joints.Select(joint => joint with { First = Of(joint.First), Second = Of(joint.Second) })],
        Wiring = Of(layout.Wiring),
        DistrictsWanted = [.. layout.DistrictsWanted.Select(wish => wish with { Pieces = Of(wish.Pieces) })],
        Wishes = layout.Wishes with
        {
            Apart = [.. layout.Wishes.Apart.Select(wish => wish with { Tracks = [.. wish.Tracks.Select(Of)] })],
            Blocks = layout.Wishes.Blocks is { } blocks ? blocks with { Track = Of(blocks.Track) } : null,
        },
        NoFeeder = Of(layout.NoFeeder),
        NoGap = Of(layout.NoGap),
        Stops = Of(layout.Stops),
    };

    private Wiring Of(Wiring wiring) => wiring with
    {
        Boosters = [.. wiring.Boosters.Select(booster => booster.Beside is { } place ? booster with { Beside = Of(place) } : booster)],
        Feeders = [.. wiring.Feeders.Select(feeder => feeder with { At = Of(feeder.At), When = Of(feeder.When) })],
        Gaps = [.. wiring.Gaps.Select(gap => gap with { At = Of(gap.At), BridgedWhen = Of(gap.BridgedWhen) })],
    };

    private GapPlace Of(GapPlace place) => place switch
    {
        GapPlace.InSection within => new GapPlace.InSection(Of(within.Place)),
        GapPlace.InJoint joint => new GapPlace.InJoint(Of(joint.End)),
        _ => throw new ArgumentOutOfRangeException(nameof(place), place, "not a place of a gap"),
    };

    private ImmutableArray<PieceId> Of(ImmutableArray<PieceId> pieces) => [.. pieces.Select(Of)];

    private Setting? Of(Setting? setting) => setting is { } given ? given with { Owner = Of(given.Owner) } : null;

    private TrackEnd Of(TrackEnd end) => end with { Piece = Of(end.Piece) };

    private TrackPlace Of(TrackPlace place) => place with { Section = Of(place.Section) };

    private PieceId Of(PieceId piece) => names.GetValueOrDefault(piece, piece);
}
