using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>
/// Justifies every gap of a layout: what would happen if this one gap were closed and everything else stayed. The answer is looked for
/// from the two faces of the gap outward, in whatever positions it takes; positions in mid-throw are left out.
/// </summary>
/// <remarks>
/// Gaps that may be closed one by one are then closed one after the other. A gap that cannot be closed any more is one of several of
/// which one has to stay: it is told with those it depends on. All others may be closed together.
/// </remarks>
public static class GapPurposes
{
    /// <summary>One entry for each gap or insulated joint and rail, joints first, in the order of the layout.</summary>
    public static ImmutableArray<GapPurpose> Find(RailGraph graph, CancellationToken cancellationToken = default) =>
        new GapPurposeWorkspace(MendedRails.Of(graph, cancellationToken)).Find(cancellationToken);
}

/// <summary>Works the purposes of gaps out.</summary>
internal sealed class GapPurposeWorkspace
{
    private readonly RailNets _nets;
    private readonly BridgeSearchWorkspace _search;
    private readonly FeedStates _states;
    private readonly BridgePaths _paths;
    private readonly RailMates _mates;
    private readonly GapParityWorkspace _parity;
    private readonly ImmutableArray<GapFaces> _gaps;
    private readonly ImmutableArray<GapRail> _names;

    internal GapPurposeWorkspace(MendedRails rails)
    {
        _nets = rails.Nets;
        _search = new(ContactWeb.AtRest(rails.Graph, rails.Nets), rails.Nets, rails.Relations);
        _states = new(rails.Graph, rails.Nets, _search);
        _paths = new(rails, _search);
        _mates = new(rails.Graph, rails.Nets);
        _parity = new(rails);
        _gaps = [.. GapFaces.All(rails.Graph).DistinctBy(gap => (gap.Near, gap.Far))];
        ILookup<TrackEnd, TrackEnd> named = rails.Graph.Layout.Wiring.Gaps.Select(gap => gap.At).OfType<GapPlace.InJoint>().ToLookup(at => at.End, at => at.End);
        _names = [.. _gaps.Select(gap => Name(rails.Graph.Index, named, gap))];
    }

    internal ImmutableArray<GapPurpose> Find(CancellationToken cancellationToken)
    {
        List<GapPurpose> purposes = [];
        for (int gap = 0; gap < _gaps.Length; gap++)
        {
            cancellationToken.ThrowIfCancellationRequested();
            purposes.Add(Alone(gap));
        }

        List<HashSet<int>> eitherOf = [.. _gaps.Select(_ => new HashSet<int>())];
        for (int gap = 0; gap < _gaps.Length; gap++)
        {
            cancellationToken.ThrowIfCancellationRequested();
            if (!purposes[gap].IsNeeded)
            {
                Close(gap, eitherOf);
            }
        }

        return [.. purposes.Select((purpose, gap) => purpose with { EitherOf = [.. eitherOf[gap].Order().Select(other => _names[other])] })];
    }

    /// <summary>The gap in the words of the layout file: where the file names the other end of the joint, that end.</summary>
    private static GapRail Name(LayoutIndex index, ILookup<TrackEnd, TrackEnd> named, GapFaces gap) =>
        gap.At is GapPlace.InJoint { End: var end } && !named.Contains(end) && index.Opposite(end) is { } other && named.Contains(other)
            ? new(new GapPlace.InJoint(other), gap.Side.Across())
            : new(gap.At, gap.Side);

    private (int Near, int Far) NetsOf(int gap) => (_nets.NetOf[_gaps[gap].Near], _nets.NetOf[_gaps[gap].Far]);

    private GapPurpose Alone(int gap)
    {
        (int near, int far) = NetsOf(gap);
        GapPurpose purpose = new(_names[gap], GapUse.Nothing);
        if (Harm(near, far) is { } harm)
        {
            RailMeeting meeting = _paths.Describe(_gaps[gap].Near, _gaps[gap].Far, harm);
            return purpose with { Use = UseOf(harm.Kind), Meeting = meeting, Path = meeting.Path, Turnouts = meeting.Turnouts };
        }

        if (_search.GaveUp)
        {
            return purpose with { Use = GapUse.Undecided };
        }

        if (_mates.Are(near, far))
        {
            return purpose with { Use = GapUse.Loop, Path = _paths.Loop(_gaps[gap].Near, _gaps[gap].Far, _mates) };
        }

        return _parity.Close(_gaps[gap], gap, keep: false) is null ? WithoutHarm(purpose, near, far) : purpose with { Use = GapUse.Loop };
    }

    private GapPurpose WithoutHarm(GapPurpose purpose, int near, int far)
    {
        if (near == far)
        {
            return purpose with { Use = GapUse.Around };
        }

        if (!_states.IsEverFed(near) || !_states.IsEverFed(far))
        {
            return purpose with { Use = GapUse.Unfed };
        }

        return _states.OneOnly(near, far) is { } positions ? purpose with { Use = GapUse.Switching, Turnouts = positions } : purpose;
    }

    private Bridging? Harm(int near, int far) =>
        _search.Worst(near, far, ImmutableSortedDictionary<PieceId, string>.Empty, (_, _, _) => true);

    private static GapUse UseOf(MeetingKind kind) => kind switch
    {
        MeetingKind.Short => GapUse.Short,
        MeetingKind.Reversing => GapUse.Reversing,
        MeetingKind.Joined => GapUse.Districts,
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "no such meeting"),
    };

    /// <summary>Closes a gap that does no harm by itself, unless it would with those closed before it: then each of them is one of which one has to stay.</summary>
    private void Close(int gap, List<HashSet<int>> eitherOf)
    {
        (int near, int far) = NetsOf(gap);
        ImmutableArray<int>? with = Harm(near, far) is { } harm ? [.. harm.Near.Ties, .. harm.Far.Ties] : Mates(near, far) ?? _parity.Close(_gaps[gap], gap, keep: true);
        if (with is not { } closed)
        {
            _search.Tie(near, far, gap);
            return;
        }

        foreach (int other in closed)
        {
            eitherOf[gap].Add(other);
            eitherOf[other].Add(gap);
        }
    }

    /// <summary>The closed gaps over which the two rails of a track are joined, or null.</summary>
    private ImmutableArray<int>? Mates(int near, int far)
    {
        ImmutableArray<NetWay> fromFar = _search.Tied(far);
        foreach (NetWay one in _search.Tied(near))
        {
            foreach (NetWay other in fromFar)
            {
                if (_mates.Are(one.Net, other.Net))
                {
                    return [.. one.Ties, .. other.Ties];
                }
            }
        }

        return null;
    }
}
