using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Documents.Geometry.Automatic;

/// <summary>Walks the track from node to node.</summary>
internal sealed class TrackNetworkBuilder
{
    private readonly LayoutIndex _index;
    private readonly List<(NodeKind Kind, Piece? Piece, int[] Halves, ImmutableArray<string> Arms)> _nodes = [];
    private readonly List<NetworkRun> _runs = [];
    private readonly Dictionary<TrackEnd, (int Node, int Arm)> _arms = [];
    private readonly HashSet<PieceId> _passed = [];

    public TrackNetworkBuilder(Layout layout) => _index = new(layout);

    public TrackNetwork Build()
    {
        foreach (Piece piece in _index.Layout.Track) AddNode(piece);
        foreach (TrackEnd end in _index.Layout.Track.SelectMany(piece => piece.Ends).Where(_arms.ContainsKey)) WalkFrom(end);
        foreach (Piece.Section section in _index.Layout.Track.OfType<Piece.Section>()) AddFreeRun(section);
        return new([.. _nodes.Select(node => new NetworkNode(node.Kind, node.Piece, [.. node.Halves], node.Arms))], [.. _runs]);
    }

    private void AddNode(Piece piece)
    {
        if (piece is Piece.Section or Piece.Stop) return;
        ImmutableArray<string> arms = TrackNetwork.Arms(piece, end => _index.JointAt(end) is not null);
        for (int arm = 0; arm < arms.Length; arm++) _arms[piece.End(arms[arm])] = (_nodes.Count, arm);
        NewNode(TrackNetwork.Kind(piece), piece, arms);
    }

    private int NewNode(NodeKind kind, int halves) => NewNode(kind, null, [], halves);

    private void NewNode(NodeKind kind, Piece piece, ImmutableArray<string> arms) => NewNode(kind, piece, arms, arms.Length);

    private int NewNode(NodeKind kind, Piece? piece, ImmutableArray<string> arms, int count)
    {
        var halves = new int[count];
        Array.Fill(halves, -1);
        _nodes.Add((kind, piece, halves, arms));
        return _nodes.Count - 1;
    }

    private void WalkFrom(TrackEnd end)
    {
        (int node, int arm) = _arms[end];
        if (_nodes[node].Halves[arm] >= 0) return;
        var sections = ImmutableArray.CreateBuilder<(Piece.Section, bool)>();
        TrackEnd? last = Follow(end, sections);
        (int toNode, int toArm) = last is { } reached && _arms.TryGetValue(reached, out var there) ? there : (NewNode(NodeKind.End, 1), 0);
        AddRun((node, arm), (toNode, toArm), sections.ToImmutable());
    }

    // Out of an end, through sections, up to the end of a turnout or crossing; null when the track stops.
    private TrackEnd? Follow(TrackEnd end, ImmutableArray<(Piece.Section, bool)>.Builder sections)
    {
        TrackEnd? next = _index.Opposite(end);
        while (next is { } entered && _index.Piece(entered.Piece) is Piece.Section section && _passed.Add(section.Id))
        {
            bool forward = entered.Name == "a";
            sections.Add((section, forward));
            next = _index.Opposite(section.End(forward ? "b" : "a"));
        }

        return next;
    }

    // A run that meets no turnout: from an end of track to another, or closed.
    private void AddFreeRun(Piece.Section section)
    {
        if (_passed.Contains(section.Id)) return;
        var ahead = ImmutableArray.CreateBuilder<(Piece.Section, bool)>();
        var behind = ImmutableArray.CreateBuilder<(Piece.Section, bool)>();
        _passed.Add(section.Id);
        bool closed = Follow(section.End("b"), ahead) == section.End("a");
        if (!closed) Follow(section.End("a"), behind);
        IEnumerable<(Piece.Section, bool)> before = behind.Select(step => (step.Item1, !step.Item2)).Reverse();
        ImmutableArray<(Piece.Section, bool)> all = [.. before, (section, true), .. ahead];
        if (closed)
        {
            int bend = NewNode(NodeKind.Bend, 2);
            AddRun((bend, 0), (bend, 1), all);
        }
        else
        {
            AddRun((NewNode(NodeKind.End, 1), 0), (NewNode(NodeKind.End, 1), 0), all);
        }
    }

    private void AddRun((int Node, int Arm) from, (int Node, int Arm) to, ImmutableArray<(Piece.Section, bool)> sections)
    {
        _nodes[from.Node].Halves[from.Arm] = 2 * _runs.Count;
        _nodes[to.Node].Halves[to.Arm] = (2 * _runs.Count) + 1;
        _runs.Add(new(from.Node, to.Node, sections));
    }
}
