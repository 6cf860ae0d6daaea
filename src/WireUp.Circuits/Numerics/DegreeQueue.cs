namespace WireUp.Circuits.Numerics;

/// <summary>Vertices by degree, the least first; of equal ones the one put in last. One doubly linked list a degree.</summary>
/// <param name="vertexCount">Vertices are numbered from 0 to this, exclusive.</param>
/// <param name="mostDegree">Largest degree that can occur.</param>
internal sealed class DegreeQueue(int vertexCount, int mostDegree)
{
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

    internal void Move(int vertex, int degree)
    {
        if (_degree[vertex] != degree)
        {
            Remove(vertex);
            Put(vertex, degree);
        }
    }

    internal int Take()
    {
        while (_head[_least] < 0)
        {
            _least++;
        }

        int vertex = _head[_least];
        Remove(vertex);
        return vertex;
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
    }

    private static int[] Filled(int length)
    {
        int[] values = new int[length];
        Array.Fill(values, -1);
        return values;
    }
}
