namespace WireUp.Documents.Geometry.Automatic;

/// <summary>
/// The shape of a drawing on squared paper before it has measures: vertices (nodes, corners, and points where a helping line
/// meets another) with a link in each of four directions. Cutting every face into rectangles by helping lines makes any
/// measures that keep links pointing their way a drawing without crossings.
/// </summary>
/// <remarks>
/// Links are numbered 4 · vertex + direction; directions 0 right, 1 up, 2 left, 3 down.
/// Source: G. Di Battista, P. Eades, R. Tamassia, I. Tollis, Graph Drawing, 1999, section 5.4 (compaction).
/// </remarks>
internal sealed class GridShapeBuilder
{
    private const double PlainRoom = 0.6;

    private readonly PlanarMap _map;
    private readonly List<int> _links = [];
    private readonly List<bool> _isTrack = [];
    private readonly List<double> _room = [];
    private readonly Dictionary<int, LinkedListNode<int>> _placeOf = [];

    /// <summary>The shape of a map whose edges turn as given.</summary>
    public GridShapeBuilder(PlanarMap map, int[] turns)
    {
        _map = map;
        foreach (MapNode _ in map.Nodes) NewVertex();
        ArmDirections = Directions(map, turns);
        BendsOfEdge = new int[map.Edges.Length][];
        SetRooms();
        for (int edge = 0; edge < map.Edges.Length; edge++) AddEdge(edge, turns[edge]);
    }

    /// <summary>Direction in which each half leaves its node.</summary>
    public int[] ArmDirections { get; }

    /// <summary>The corner vertices of each edge, in order.</summary>
    public int[][] BendsOfEdge { get; }

    /// <summary>The straight stretches of edges: their vertices, edge and how many the edge has.</summary>
    public List<(int From, int To, int Edge, int Of)> Stretches { get; } = [];

    /// <summary>How many vertices there are.</summary>
    public int Count => _links.Count / 4;

    /// <summary>The vertex a link leads to, or −1.</summary>
    public int Link(int vertex, int direction) => _links[(4 * vertex) + (direction & 3)];

    /// <summary>Whether a link is track, and not a helping line.</summary>
    public bool IsTrack(int vertex, int direction) => _isTrack[(4 * vertex) + (direction & 3)];

    /// <summary>Room a vertex needs in a direction.</summary>
    public double Room(int vertex, int direction) => _room[(4 * vertex) + (direction & 3)];

    /// <summary>Adds helping lines until every face is a rectangle; the face to the left of the half lies outside.</summary>
    public void CutIntoRectangles(int outerHalf)
    {
        int outerLink = (4 * _map.NodeOf(outerHalf)) + ArmDirections[outerHalf];
        foreach (LinkedList<int> face in Faces())
        {
            bool outside = face.Contains(outerLink);
            CutFace(face);
            if (!outside) continue;
            Frame(face);
            CutFace(face);
        }
    }

    private static int[] Directions(PlanarMap map, int[] turns)
    {
        var directions = new int[2 * map.Edges.Length];
        Array.Fill(directions, -1);
        var open = new Queue<int>();
        SetNode(map.Nodes[0].Halves[0], 0);
        while (open.TryDequeue(out int half))
        {
            int turn = (half & 1) == 0 ? turns[half / 2] : -turns[half / 2];
            if (directions[half ^ 1] < 0) SetNode(half ^ 1, directions[half] + turn + 2);
        }

        return directions;

        void SetNode(int half, int direction)
        {
            MapNode node = map.Nodes[map.NodeOf(half)];
            var angles = NodeShape.Angles(node);
            int first = node.Halves.IndexOf(half);
            for (int step = 0; step < angles.Length; step++)
            {
                int arm = (first + step) % angles.Length;
                directions[node.Halves[arm]] = direction & 3;
                direction += angles[arm];
                open.Enqueue(node.Halves[arm]);
            }
        }
    }

    private int NewVertex()
    {
        for (int direction = 0; direction < 4; direction++)
        {
            _links.Add(-1);
            _isTrack.Add(false);
            _room.Add(PlainRoom);
        }

        return Count - 1;
    }

    private void SetRooms()
    {
        for (int node = 0; node < _map.Nodes.Length; node++)
        {
            for (int arm = 0; arm < _map.Nodes[node].Halves.Length; arm++)
            {
                _room[(4 * node) + ArmDirections[_map.Nodes[node].Halves[arm]]] = GridPlan.Room(_map.Nodes[node], arm);
            }
        }
    }

    private void AddEdge(int edge, int turns)
    {
        int count = Math.Abs(turns), direction = ArmDirections[2 * edge], at = _map.Edges[edge].From;
        BendsOfEdge[edge] = [.. Enumerable.Range(0, count).Select(_ => NewVertex())];
        foreach (int next in BendsOfEdge[edge].Append(_map.Edges[edge].To))
        {
            Connect(at, direction, next, isTrack: true);
            Stretches.Add((at, next, edge, count + 1));
            (at, direction) = (next, (direction + Math.Sign(turns)) & 3);
        }
    }

    private void Connect(int from, int direction, int to, bool isTrack = false)
    {
        (int ahead, int back) = ((4 * from) + (direction & 3), (4 * to) + ((direction + 2) & 3));
        (_links[ahead], _links[back]) = (to, from);
        (_isTrack[ahead], _isTrack[back]) = (isTrack, isTrack);
    }

    // Every face as the links around it, with the face to their left. At the end of a track a link of no length turns the
    // corner in two steps.
    private List<LinkedList<int>> Faces()
    {
        var faces = new List<LinkedList<int>>();
        for (int first = 0; first < _links.Count; first++)
        {
            if (_links[first] < 0 || _placeOf.ContainsKey(first)) continue;
            var face = new LinkedList<int>();
            int link = first;
            do
            {
                Append(face, link);
                link = Next(face, link);
            }
            while (link != first);
            faces.Add(face);
        }

        return faces;
    }

    private int Next(LinkedList<int> face, int link)
    {
        (int vertex, int direction) = (_links[link], link & 3);
        foreach (int turn in (int[])[1, 0, 3])
        {
            if (Link(vertex, direction + turn) >= 0) return (4 * vertex) + ((direction + turn) & 3);
        }

        Append(face, (4 * vertex) + ((direction + 3) & 3));
        return (4 * vertex) + ((direction + 2) & 3);
    }

    private void Append(LinkedList<int> face, int link) => _placeOf[link] = face.AddLast(link);

    private static LinkedListNode<int> After(LinkedListNode<int> place) => place.Next ?? place.List!.First!;

    private static int TurnAfter(LinkedListNode<int> place) => ((After(place).Value - place.Value) & 3) switch { 0 => 0, 1 => 1, _ => -1 };

    // Wherever a right turn is followed by two left turns, the line before the right turn can go straight on to meet the line
    // after them, which cuts a rectangle off.
    private void CutFace(LinkedList<int> face)
    {
        LinkedListNode<int> place = face.First!;
        for (int still = 0; still <= face.Count; still++, place = After(place))
        {
            if (TurnAfter(place) != -1) continue;
            LinkedListNode<int> side = LastStraight(After(place));
            if (TurnAfter(side) != 1) continue;
            LinkedListNode<int> front = LastStraight(After(side));
            if (TurnAfter(front) != 1) continue;
            CutOff(place, side, After(front));
            still = -1;
        }
    }

    private static LinkedListNode<int> LastStraight(LinkedListNode<int> place)
    {
        while (TurnAfter(place) == 0) place = After(place);
        return place;
    }

    private void CutOff(LinkedListNode<int> before, LinkedListNode<int> sideEnd, LinkedListNode<int> opposite)
    {
        LinkedList<int> face = before.List!;
        int sideCount = 1;
        for (LinkedListNode<int> place = After(before); place != sideEnd; place = After(place)) sideCount++;
        for (int step = 1; step < sideCount && TurnAfter(opposite) == 0; step++) opposite = After(opposite);

        int meeting = SplitLink(opposite.Value);
        while (After(before) != opposite) Forget(face, After(before));
        Forget(face, opposite);
        int corner = EndOf(before.Value);
        Connect(corner, before.Value & 3, meeting);
        if (corner != before.Value / 4) _placeOf[(4 * corner) + (before.Value & 3)] = face.AddAfter(before, (4 * corner) + (before.Value & 3));
    }

    // The link of no length at the end of a track ends where it begins.
    private int EndOf(int link) => _links[link] < 0 ? link / 4 : _links[link];

    private void Forget(LinkedList<int> face, LinkedListNode<int> place)
    {
        _placeOf.Remove(place.Value);
        face.Remove(place);
    }

    // Puts a vertex into a link; both faces beside the link learn of it.
    private int SplitLink(int link)
    {
        (int from, int direction, int to) = (link / 4, link & 3, _links[link]);
        int middle = NewVertex();
        bool isTrack = _isTrack[link];
        Connect(from, direction, middle, isTrack);
        Connect(middle, direction, to, isTrack);
        InsertAfter(link, (4 * middle) + direction);
        InsertAfter((4 * to) + ((direction + 2) & 3), (4 * middle) + ((direction + 2) & 3));
        return middle;
    }

    private void InsertAfter(int known, int added)
    {
        if (_placeOf.TryGetValue(known, out LinkedListNode<int>? place)) _placeOf[added] = place.List!.AddAfter(place, added);
    }

    // Puts a rectangle around the drawing and joins it to a corner.
    private void Frame(LinkedList<int> face)
    {
        LinkedListNode<int> place = face.First!;
        while (TurnAfter(place) != -1) place = After(place);
        int direction = place.Value & 3, corner = EndOf(place.Value);
        int[] frame = [.. Enumerable.Range(0, 4).Select(_ => NewVertex())];
        for (int side = 0; side < 4; side++) Connect(frame[side], direction + 1 + side, frame[(side + 1) & 3]);
        int meeting = SplitLink((4 * frame[0]) + ((direction + 1) & 3));
        bool noLength = corner == place.Value / 4;
        Connect(corner, direction, meeting);
        LinkedListNode<int> last = place;
        if (!noLength) AddAfterLast((4 * corner) + direction);
        AddAfterLast((4 * meeting) + ((direction + 1) & 3));
        for (int side = 1; side < 4; side++) AddAfterLast((4 * frame[side]) + ((direction + 1 + side) & 3));
        AddAfterLast((4 * frame[0]) + ((direction + 1) & 3));
        AddAfterLast((4 * meeting) + ((direction + 2) & 3));

        void AddAfterLast(int link) => _placeOf[link] = last = face.AddAfter(last, link);
    }
}
