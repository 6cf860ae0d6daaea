namespace WireUp.Circuits.Numerics;

/// <summary>Vertices by degree, the least first; of equal ones the one put in last. One doubly linked list a degree.</summary>
/// <param name="vertexCount">Vertices are numbered from 0 to this, exclusive.</param>
/// <param name="mostDegree">Largest degree that can occur.</param>
internal sealed class DegreeQueue(int vertexCount, int mostDegree)
{
    private const int Out = -1;
    private readonly int[] _head = Filled(mostDegree + 1);
    private readonly int[] _next = Filled(vertexCount);
    private readonly int[] _previous = Filled(vertexCount);
    private readonly int[] _degree = Filled(vertexCount);
    private int _least = mostDegree;

    internal void Put(int vertex, int degree)
    {
        _degree[vertex] = degree;
        _previous[vertex] = -1;
        _next[vertex] = _head[degree];
        if (_head[degree] >= 0)
        {
            _previous[_head[degree]] = vertex;
        }

        _head[degree] = vertex;
        _least = Math.Min(_least, degree);
    }

    /// <summary>The least degree of any vertex in it; the largest number where it is empty.</summary>
    internal int LeastDegree()
    {
        while (_least < _head.Length && _head[_least] < 0)
        {
            _least++;
        }

        return _least < _head.Length ? _least : int.MaxValue;
    }

    /// <summary>Takes one of the least degree out; there must be one.</summary>
    internal int Take()
    {
        int vertex = _head[LeastDegree()];
        Remove(vertex);
        return vertex;
    }

    /// <summary>Takes a vertex out; false when it is out already.</summary>
    internal bool TryRemove(int vertex)
    {
        if (_degree[vertex] == Out)
        {
            return false;
        }

        Remove(vertex);
        return true;
    }

    private void Remove(int vertex)
    {
        if (_previous[vertex] >= 0)
        {
            _next[_previous[vertex]] = _next[vertex];
        }
        else
        {
            _head[_degree[vertex]] = _next[vertex];
        }

        if (_next[vertex] >= 0)
        {
            _previous[_next[vertex]] = _previous[vertex];
        }

        _degree[vertex] = Out;
    }

    private static int[] Filled(int length)
    {
        int[] values = new int[length];
        Array.Fill(values, -1);
        return values;
    }
}
