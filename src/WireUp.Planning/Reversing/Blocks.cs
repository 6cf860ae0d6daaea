using System.Collections.Immutable;
using WireUp.Rails;

namespace WireUp.Planning.Reversing;

/// <summary>A part of the map in which every two runs lie on a common cycle.</summary>
/// <param name="Runs">Its runs, ascending.</param>
/// <param name="IsOdd">Whether some walk round it comes back with the rails exchanged.</param>
internal sealed record Block(ImmutableArray<int> Runs, bool IsOdd);

/// <summary>
/// Splits the map into its 2-connected parts. Source: J. Hopcroft, R. Tarjan, Algorithm 447: efficient algorithms for graph
/// manipulation, CACM 16 (1973), pages 372–378; here without recursion and with parallel runs told apart.
/// </summary>
internal sealed class BlocksWorkspace
{
    private readonly RunMap _map;
    private readonly Func<int, bool> _isWhole;
    private readonly int[] _number;
    private readonly int[] _low;
    private readonly Stack<int> _runs = new();
    private readonly HashSet<int> _seen = [];
    private readonly List<Block> _blocks = [];
    private int _next;

    private BlocksWorkspace(RunMap map, Func<int, bool> isWhole)
    {
        _map = map;
        _isWhole = isWhole;
        _number = new int[map.Junctions.Length];
        _low = new int[map.Junctions.Length];
    }

    /// <summary>The blocks of the map, leaving out runs that are not whole (parted for good), in order of their first run.</summary>
    internal static ImmutableArray<Block> Of(RunMap map, Func<int, bool> isWhole)
    {
        BlocksWorkspace workspace = new(map, isWhole);
        foreach (Junction junction in map.Junctions.Where(junction => workspace._number[junction.Index] == 0))
        {
            workspace.Visit(junction.Index);
        }

        return [.. workspace._blocks.OrderBy(block => block.Runs[0])];
    }

    private void Visit(int root)
    {
        Stack<(int Junction, int ByRun, int Port)> path = new();
        Enter(root);
        path.Push((root, -1, 0));
        while (path.Count > 0)
        {
            (int at, int byRun, int port) = path.Pop();
            if (port < _map.Junctions[at].Tips.Length)
            {
                path.Push((at, byRun, port + 1));
                Step(path, at, byRun, _map.Junctions[at].Tips[port]);
            }
            else if (path.Count > 0)
            {
                Leave(path.Peek().Junction, at, byRun);
            }
        }
    }

    private void Step(Stack<(int Junction, int ByRun, int Port)> path, int at, int byRun, Tip tip)
    {
        if (tip.Run == byRun || !_isWhole(tip.Run) || _map.PortAt(tip.Opposite) is not { } port)
        {
            return;
        }

        if (port.Junction == at)
        {
            if (_seen.Add(tip.Run))
            {
                Close([tip.Run]);
            }
        }
        else if (_number[port.Junction] == 0)
        {
            _ = _seen.Add(tip.Run);
            _runs.Push(tip.Run);
            Enter(port.Junction);
            path.Push((port.Junction, tip.Run, 0));
        }
        else if (_seen.Add(tip.Run))
        {
            _runs.Push(tip.Run);
            _low[at] = Math.Min(_low[at], _number[port.Junction]);
        }
    }

    private void Enter(int junction) => _number[junction] = _low[junction] = ++_next;

    private void Leave(int parent, int child, int byRun)
    {
        _low[parent] = Math.Min(_low[parent], _low[child]);
        if (_low[child] < _number[parent])
        {
            return;
        }

        List<int> runs = [];
        do
        {
            runs.Add(_runs.Pop());
        }
        while (runs[^1] != byRun);
        Close(runs);
    }

    private void Close(IEnumerable<int> runs)
    {
        ImmutableArray<int> sorted = [.. runs.Order()];
        _blocks.Add(new(sorted, !IsBalanced(_map, sorted)));
    }

    /// <summary>Whether no walk over these runs comes back with the rails exchanged.</summary>
    internal static bool IsBalanced(RunMap map, IEnumerable<int> runs)
    {
        CellMap whole = new(map, []);
        SignUnionWorkspace parity = new(whole.Count);
        return runs.SelectMany(whole.Meetings).All(meeting => parity.Join(meeting.Cell, meeting.Junction, meeting.Differ));
    }
}
