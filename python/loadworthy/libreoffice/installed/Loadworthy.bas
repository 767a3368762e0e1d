' Functions for cells: each hands its arguments to Python, where they are answered.
Option Compatible
Option Explicit

Private figures As Object, texts As Object, workings As Object

Function LOADWORTHY_AMPACITY_A(size, material, insulation, ParamArray stated())
    Dim first
    first = Array("size", size, "material", material, "insulation", insulation)
    LOADWORTHY_AMPACITY_A = figure("ampacity", "A", joined(first, stated))
End Function

Function LOADWORTHY_CORD_A(cord, size, current_carrying, ParamArray stated())
    Dim first
    first = Array("cord", cord, "size", size, "current_carrying", current_carrying)
    LOADWORTHY_CORD_A = figure("cord_ampacity", "A", joined(first, stated))
End Function

' By the resistance of direct current, which is what a batch of circuits is judged by.
Function LOADWORTHY_DROP_V(size, material, length, current, supply, circuit, ParamArray stated())
    Dim wire, load
    wire = Array("method", "dc", "size", size, "material", material, "length", length)
    load = Array("current", current, "supply", supply, "circuit", circuit)
    LOADWORTHY_DROP_V = figure("voltage_drop", "V", joined(joined(wire, load), stated))
End Function

' The smallest standard breaker that is not below what is required.
Function LOADWORTHY_BREAKER_A(required, ParamArray stated())
    LOADWORTHY_BREAKER_A = figure("overcurrent_device", "A", joined(Array("required", required, "kind", "breaker"), stated))
End Function

Function LOADWORTHY(question, ParamArray stated())
    If IsNull(texts) Then texts = script("spoken")
    LOADWORTHY = texts.invoke(Array(question, stated), Array(), Array())
End Function

Function LOADWORTHY_WHY(question, ParamArray stated())
    If IsNull(workings) Then workings = script("working")
    LOADWORTHY_WHY = workings.invoke(Array(question, stated), Array(), Array())
End Function

Private Function figure(question, unit, stated)
    If IsNull(figures) Then figures = script("figure")
    figure = figures.invoke(Array(question, unit, stated), Array(), Array())
End Function

Private Function script(name)
    Dim factory, place
    factory = CreateUnoService("com.sun.star.script.provider.MasterScriptProviderFactory")
    place = "vnd.sun.star.script:loadworthy_macros.py$" & name & "?language=Python&location=user"
    script = factory.createScriptProvider("").getScript(place)
End Function

Private Function joined(first, rest)
    Dim all(), last, at
    last = UBound(first) + UBound(rest) + 1
    ReDim all(last)
    For at = 0 To UBound(first)
        all(at) = first(at)
    Next
    For at = 0 To UBound(rest)
        all(UBound(first) + 1 + at) = rest(at)
    Next
    joined = all
End Function
