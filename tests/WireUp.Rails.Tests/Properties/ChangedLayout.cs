using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Rails.Tests.Properties;

/// <summary>Ways of writing the same railway down differently, none of which may change what is said about it.</summary>
internal static class ChangedLayout
{
    /// <summary>Every piece, switch and feeder under another name; names sort in the opposite order.</summary>
    public static Layout Renamed(Layout layout)
    {
        ImmutableSortedSet<PieceId> names = [.. layout.Track.Select(piece => piece.Id), .. layout.Wiring.Switches.Select(item => item.Name)];
        return Changed(layout, new() { Name = NewName });

        PieceId NewName(PieceId old) => new($"n{names.Count - names.IndexOf(old):D3}");
    }

    /// <summary>The name that <see cref="Renamed"/> gives to an owner of positions.</summary>
    public static PieceId NameAfter(Layout layout, PieceId old)
    {
        ImmutableSortedSet<PieceId> names = [.. layout.Track.Select(piece => piece.Id), .. layout.Wiring.Switches.Select(item => item.Name)];
        return new($"n{names.Count - names.IndexOf(old):D3}");
    }

    /// <summary>One section written from its other end.</summary>
    public static Layout Turned(Layout layout, PieceId section)
    {
        double length = ((Piece.Section)layout.Track.Single(piece => piece.Id == section)).Length.Meters;
        bool twoRail = layout.Control != ControlSystem.ThreeRail;
        return Changed(layout, new()
        {
            End = end => end.Piece != section ? end : end with { Name = end.Name == "a" ? "b" : "a" },
            Place = place => place.Section != section ? place : place with { MetresFromA = length - place.MetresFromA },
            RailsAt = (place, rails) => place.Section == section && twoRail ? Mirror(rails) : rails,
            SwapAt = place => place.Section == section && twoRail,
        });
    }

    /// <summary>One section as two, joined where nothing is.</summary>
    public static Layout Split(Layout layout, PieceId section, double metres)
    {
        Piece.Section whole = (Piece.Section)layout.Track.Single(piece => piece.Id == section);
        Piece.Section one = whole with { Length = Length.FromMeters(metres) };
        Piece.Section other = new(new($"{section}-2"), whole.Length - one.Length);
        Layout changed = Changed(layout, new()
        {
            End = end => end == whole.End("b") ? other.End("b") : end,
            Place = place => place.Section == section && place.MetresFromA > metres ? new(other.Id, place.MetresFromA - metres) : place,
        });
        return changed with
        {
            Track = [.. changed.Track.SelectMany(piece => piece.Id == section ? new Piece[] { one, other } : [piece])],
            Joints = [.. changed.Joints, new(one.End("b"), other.End("a"))],
        };
    }

    /// <summary>The plan as a mirror shows it. Tables that turn are left out: see <see cref="CanMirror"/>.</summary>
    public static Layout Mirrored(Layout layout)
    {
        bool twoRail = layout.Control != ControlSystem.ThreeRail;
        Dictionary<PieceId, Piece> pieces = layout.Track.ToDictionary(piece => piece.Id);
        return Changed(layout, new()
        {
            Piece = Mirror,
            End = end => end with { Name = MirrorWord(pieces[end.Piece], end.Name) },
            Setting = setting => pieces.TryGetValue(setting.Owner, out Piece? piece) ? setting with { Position = MirrorWord(piece, setting.Position) } : setting,
            RailsAt = (_, rails) => twoRail ? Mirror(rails) : rails,
            RailsInJoint = rails => twoRail ? Mirror(rails) : rails,
            SwapAt = _ => twoRail,
        });
    }

    /// <summary>Roads of a turntable are numbered clockwise, and the halves of a split ring by them.</summary>
    public static bool CanMirror(Layout layout) => !layout.Track.Any(piece => piece is Piece.Turntable);

    /// <summary>Everything in the opposite order.</summary>
    public static Layout Reordered(Layout layout) => layout with
    {
        Track = [.. layout.Track.Reverse()],
        Joints = [.. layout.Joints.Reverse()],
        Wiring = layout.Wiring with { Feeders = [.. layout.Wiring.Feeders.Reverse()], Gaps = [.. layout.Wiring.Gaps.Reverse()] },
    };

    /// <summary>A road with a buffer stop at an end that was open.</summary>
    public static Layout Lengthened(Layout layout, TrackEnd open)
    {
        Piece.Section road = new(new("dead-end"), Length.FromMeters(1));
        Piece.Stop stop = new(new("dead-end-stop"));
        return layout with
        {
            Track = [.. layout.Track, road, stop],
            Joints = [.. layout.Joints, new(open, road.End("a")), new(road.End("b"), stop.End("a"))],
        };
    }

    private static Layout Changed(Layout layout, Change change) => layout with
    {
        Track = [.. layout.Track.Select(piece => Named(change.Piece(piece), change.Name(piece.Id)))],
        Joints =
        [
            .. layout.Joints.Select(joint => joint with
            {
                First = change.FullEnd(joint.First), Second = change.FullEnd(joint.Second), Insulated = change.RailsInJoint(joint.Insulated),
            }),
        ],
        Wiring = layout.Wiring with
        {
            Switches = [.. layout.Wiring.Switches.Select(item => item with { Name = change.Name(item.Name) })],
            Gaps = [.. layout.Wiring.Gaps.Select(gap => gap.At switch
            {
                GapPlace.InSection { Place: var place } => new Gap(
                    new GapPlace.InSection(change.FullPlace(place)), change.RailsAt(place, gap.Rails)) { BridgedWhen = change.FullSetting(gap.BridgedWhen) },
                GapPlace.InJoint { End: var end } => new Gap(
                    new GapPlace.InJoint(change.FullEnd(end)), change.RailsInJoint(gap.Rails)) { BridgedWhen = change.FullSetting(gap.BridgedWhen) },
                _ => throw new InvalidOperationException("no such place"),
            })],
            Feeders = [.. layout.Wiring.Feeders.Select(feeder => feeder with
            {
                At = change.FullPlace(feeder.At), Swap = feeder.Swap != change.SwapAt(feeder.At), When = change.FullSetting(feeder.When),
            })],
        },
    };

    private static Piece Named(Piece piece, PieceId name) => piece.Id == name ? piece : piece switch
    {
        Piece.Section s => new Piece.Section(name, s.Length) { LiftOut = s.LiftOut },
        Piece.Stop => new Piece.Stop(name),
        Piece.Turnout t => new Piece.Turnout(name, t.Hand, t.Frog)
        {
            Feed = t.Feed,
            Stub = t.Stub,
            PowerRouting = t.PowerRouting,
            HeelInFrog = t.HeelInFrog,
            EarlyContact = t.EarlyContact,
            CopperClad = t.CopperClad,
            Uncut = t.Uncut,
        },
        Piece.MultiTurnout t => new Piece.MultiTurnout(name, t.LegCount, t.Frog) { Feed = t.Feed, PowerRouting = t.PowerRouting },
        Piece.Crossing c => new Piece.Crossing(name, c.Angle, c.Frog) { Feed = c.Feed, OppositePhase = c.OppositePhase },
        Piece.Slip s => new Piece.Slip(name, s.Double, s.Frog) { Feed = s.Feed, Drive = s.Drive },
        Piece.Scissors s => new Piece.Scissors(name, s.Frog) { Feed = s.Feed },
        Piece.Turntable t => new Piece.Turntable(name, t.RoadCount, t.Length) { Feed = t.Feed, SplitAfter = t.SplitAfter },
        Piece.TransferTable t => new Piece.TransferTable(name, t.RoadCount, t.Length) { Feed = t.Feed },
        _ => throw new InvalidOperationException($"no such piece: {piece}"),
    };

    private static Piece Mirror(Piece piece) => piece is Piece.Turnout turnout
        ? new Piece.Turnout(
            turnout.Id,
            turnout.Hand switch { TurnoutHand.Left => TurnoutHand.Right, TurnoutHand.Right => TurnoutHand.Left, _ => TurnoutHand.Wye },
            turnout.Frog)
        {
            Feed = turnout.Feed,
            Stub = turnout.Stub,
            PowerRouting = turnout.PowerRouting,
            HeelInFrog = turnout.HeelInFrog,
            EarlyContact = turnout.EarlyContact,
            CopperClad = turnout.CopperClad,
            Uncut = Mirror(turnout.Uncut),
        }
        : piece;

    private static TieZones Mirror(TieZones zones)
    {
        TieZones others = zones & ~(TieZones.FrogLeft | TieZones.FrogRight);
        return others | ((zones & TieZones.FrogLeft) != 0 ? TieZones.FrogRight : TieZones.None) | ((zones & TieZones.FrogRight) != 0 ? TieZones.FrogLeft : TieZones.None);
    }

    /// <summary>
    /// An end or position of a piece as it is called in the mirror. A slip, mirrored, is turned half round as well, so that its slip road
    /// is a1–b2 again.
    /// </summary>
    private static string MirrorWord(Piece piece, string word) => piece switch
    {
        Piece.Turnout { Hand: TurnoutHand.Wye } => word switch { "left" => "right", "right" => "left", _ => word },
        Piece.MultiTurnout multi when multi.EndNames.IndexOf(word) is var leg and > 0 => multi.EndNames[multi.EndNames.Length - leg],
        Piece.Slip => word switch { "a1" => "b2", "b2" => "a1", "b1" => "a2", "a2" => "b1", "a" => "b", "b" => "a", _ => word },
        Piece.Crossing or Piece.Scissors => word switch
        {
            "a1" => "b1",
            "b1" => "a1",
            "a2" => "b2",
            "b2" => "a2",
            "a" => "b",
            "b" => "a",
            "a1-b2" => "b1-a2",
            "b1-a2" => "a1-b2",
            _ => word,
        },
        _ => word,
    };

    private static RailSet Mirror(RailSet rails) => rails switch { RailSet.Left => RailSet.Right, RailSet.Right => RailSet.Left, _ => rails };

    /// <summary>What happens to each thing; nothing unless said.</summary>
    private sealed record Change
    {
        public Func<PieceId, PieceId> Name { get; init; } = static name => name;

        public Func<Piece, Piece> Piece { get; init; } = static piece => piece;

        public Func<TrackEnd, TrackEnd> End { get; init; } = static end => end;

        public Func<TrackPlace, TrackPlace> Place { get; init; } = static place => place;

        public Func<Setting, Setting> Setting { get; init; } = static setting => setting;

        public Func<TrackPlace, RailSet, RailSet> RailsAt { get; init; } = static (_, rails) => rails;

        public Func<RailSet, RailSet> RailsInJoint { get; init; } = static rails => rails;

        public Func<TrackPlace, bool> SwapAt { get; init; } = static _ => false;

        public TrackEnd FullEnd(TrackEnd end) => End(end) is var changed ? changed with { Piece = Name(changed.Piece) } : end;

        public TrackPlace FullPlace(TrackPlace place) => Place(place) is var changed ? changed with { Section = Name(changed.Section) } : place;

        public Setting? FullSetting(Setting? setting) => setting is { } given && Setting(given) is var changed ? changed with { Owner = Name(changed.Owner) } : null;
    }
}
