using System.Collections.Frozen;

namespace WireUp.Layouts;

/// <summary>
/// Look-ups into one layout: piece by name, joint and gap by end. Built once by whoever walks the track; it belongs to the
/// layout it was built from and is of no use to a changed copy.
/// </summary>
public sealed class LayoutIndex
{
    private readonly FrozenDictionary<PieceId, Piece> _pieces;
    private readonly FrozenDictionary<TrackEnd, Joint> _joints;
    private readonly FrozenDictionary<TrackEnd, RailSet> _jointGaps;
    private readonly FrozenDictionary<TrackEnd, RailSet> _plainJointGaps;

    /// <summary>Indexes a layout whose names are unique and whose joints name ends that exist (the reader sees to both).</summary>
    public LayoutIndex(Layout layout)
    {
        Layout = layout;
        _pieces = layout.Track.ToFrozenDictionary(piece => piece.Id);
        _joints = layout.Joints
            .SelectMany(joint => new[] { (End: joint.First, joint), (End: joint.Second, joint) })
            .ToFrozenDictionary(pair => pair.End, pair => pair.joint);
        _jointGaps = JointGaps(layout.Wiring.Gaps);
        _plainJointGaps = JointGaps(layout.Wiring.Gaps.Where(gap => gap.BridgedWhen is null));
    }

    /// <summary>The layout.</summary>
    public Layout Layout { get; }

    /// <summary>The piece of that name.</summary>
    /// <exception cref="KeyNotFoundException">There is none.</exception>
    public Piece Piece(PieceId id) => _pieces[id];

    /// <summary>The piece of that name, or null.</summary>
    public Piece? FindPiece(PieceId id) => _pieces.GetValueOrDefault(id);

    /// <summary>The joint at an end, or null where the end is open.</summary>
    public Joint? JointAt(TrackEnd end) => _joints.GetValueOrDefault(end);

    /// <summary>The end that meets this one, or null where it is open.</summary>
    public TrackEnd? Opposite(TrackEnd end) =>
        JointAt(end) is not { } joint ? null : joint.First == end ? joint.Second : joint.First;

    /// <summary>
    /// The rails that do not conduct across the joint of this end, by insulated joiner or gap, seen looking out of this end.
    /// </summary>
    public RailSet OpenRails(TrackEnd end) => Open(end, _jointGaps);

    /// <summary>As <see cref="OpenRails"/>, without the gaps that a contact bridges in some position.</summary>
    public RailSet AlwaysOpenRails(TrackEnd end) => Open(end, _plainJointGaps);

    private RailSet Open(TrackEnd end, FrozenDictionary<TrackEnd, RailSet> gaps)
    {
        RailSet open = gaps.GetValueOrDefault(end);
        if (JointAt(end) is not { } joint)
        {
            return open;
        }

        TrackEnd opposite = joint.First == end ? joint.Second : joint.First;
        RailSet fromOpposite = Mirror(gaps.GetValueOrDefault(opposite));
        RailSet insulated = joint.First == end ? joint.Insulated : Mirror(joint.Insulated);
        return open | fromOpposite | insulated;
    }

    private static FrozenDictionary<TrackEnd, RailSet> JointGaps(IEnumerable<Gap> gaps) => gaps
        .Where(gap => gap.At is GapPlace.InJoint)
        .GroupBy(gap => ((GapPlace.InJoint)gap.At).End)
        .ToFrozenDictionary(group => group.Key, group => group.Aggregate(RailSet.None, (set, gap) => set | gap.Rails));

    private RailSet Mirror(RailSet set) => set.Across(Layout.Control);
}
